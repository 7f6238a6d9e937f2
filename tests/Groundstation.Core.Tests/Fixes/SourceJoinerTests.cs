using Groundstation.Core.Fixes;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Xunit;

namespace Groundstation.Core.Tests.Fixes;

/// <summary>One fix an epoch from several receivers; the loss of one is no loss.</summary>
public class SourceJoinerTests
{
    private static readonly Instant Start = Instant.FromUtc(new DateOnly(2026, 6, 21), TimeSpan.FromHours(9));
    private static readonly SourceId A = new("radio1"), B = new("radio2");

    private readonly List<Fix> _given = [];
    private readonly List<Fix> _late = [];
    private readonly SourceJoiner _joiner;

    public SourceJoinerTests() => _joiner = new SourceJoiner((fix, late) =>
    {
        _given.Add(fix);
        if (late) _late.Add(fix);
    });

    [Fact]
    public void One_receiver_waits_for_nobody()
    {
        for (int s = 0; s < 5; s++)
        {
            Take(A, s, 0.1);
            Assert.Equal(s + 1, _given.Count);
        }
    }

    [Fact]
    public void An_epoch_heard_twice_is_one_fix_the_better_one()
    {
        Take(A, 0, 0);
        Take(B, 0, 0.05);
        _given.Clear();
        Take(A, 1, 0, satellites: 7);
        Take(B, 1, 0.05, satellites: 9);
        Take(A, 2, 0, satellites: 9, hdop: 0.9);
        Take(B, 2, 0.05, satellites: 9, hdop: 0.8);
        Take(A, 3, 0, refused: RefusalReasons.HorizontalJump, satellites: 12);
        Take(B, 3, 0.05, satellites: 4);
        Take(A, 4, 0);
        Take(B, 4, 0.05);
        Assert.Equal([B, B, B, A], _given.Select(f => f.Source));
        Assert.Equal([A, A, A, B], _given.Select(f => f.Also.Single().Source));
        Assert.Equal(RefusalReasons.HorizontalJump, _given[2].Also.Single().Refused);
    }

    [Fact]
    public void A_receiver_that_falls_silent_holds_up_two_epochs_by_a_moment_and_then_none()
    {
        for (int s = 0; s < 3; s++)
        {
            Take(A, s, 0);
            Take(B, s, 0.2);
        }

        Take(A, 3, 0);
        Assert.Equal(3, _given.Count);
        _joiner.Release(At(3.45));
        Assert.Equal(3, _given.Count);
        _joiner.Release(At(3.55));
        Assert.Equal(4, _given.Count);
        Take(A, 4, 0);
        _joiner.Release(At(5));
        Take(A, 5, 0);
        Assert.Equal(6, _given.Count);
        Assert.Equal(Enumerable.Range(0, 6).Select(s => At(s)), _given.Select(f => f.Utc));
    }

    [Fact]
    public void A_receiver_that_is_seconds_behind_is_not_waited_for_and_fills_what_the_other_missed_or_had_refused()
    {
        for (int s = 0; s < 30; s++)
        {
            if (s is < 20 or > 22) Take(A, s, 0, refused: s == 15 ? RefusalReasons.VerticalJump : default);
            if (s >= 3) Take(B, s - 3, 3.02);
            _joiner.Release(At(s + 0.99));
        }

        Assert.Equal(A, _given[10].Source);
        Assert.True(_given.Count(f => f.Utc == At(15)) == 2, "refused, then believed from the other");
        Assert.Equal([B, B, B], _given.Where(f => f.Utc >= At(20) && f.Utc <= At(22)).Select(f => f.Source));
        Assert.Equal(_given.Count - 1, _given.Select(f => f.Utc).Distinct().Count());
        // The second copy of the refused one and the three that only B heard: A was past them all by then.
        Assert.Equal([At(15), At(20), At(21), At(22)], _late.Select(f => f.Utc));
    }

    [Fact]
    public void A_receiver_that_sets_its_clock_back_is_not_late()
    {
        for (int s = 100; s < 105; s++) Take(A, s, 0);
        for (int s = 50; s < 55; s++) Take(A, s, 60);
        Assert.Equal(10, _given.Count);
        Assert.Empty(_late);
    }

    [Fact]
    public void Nobody_is_waited_for_longer_than_a_second()
    {
        for (int s = 0; s < 3; s++)
        {
            Take(A, s, 0);
            Take(B, s, 0.8);
        }

        Take(A, 3, 0);
        _joiner.Release(At(3.95));
        Assert.Equal(3, _given.Count);
        _joiner.Release(At(4.05));
        Assert.Equal(4, _given.Count);
    }

    [Fact]
    public void A_receiver_that_was_late_once_is_soon_waited_for_no_longer_than_it_needs()
    {
        Take(A, 0, 0);
        Take(B, 0, 0.5);
        for (int s = 1; s < 10; s++)
        {
            Take(A, s, 0);
            Take(B, s, 0.02);
        }

        Take(A, 10, 0);
        _joiner.Release(At(10.3));
        Assert.Equal(11, _given.Count);
    }

    [Fact]
    public void A_lost_link_is_waited_for_no_longer()
    {
        Take(A, 0, 0);
        Take(B, 0, 0.5);
        Take(A, 1, 0);
        Assert.Single(_given);
        _joiner.Gone(B, At(1.1));
        Assert.Equal(2, _given.Count);
    }

    [Fact]
    public void Epochs_are_given_in_the_order_of_their_UTC()
    {
        Take(A, 0, 0);
        Take(B, 0, 0);
        Take(B, 2, -0.1);
        Take(A, 1, 0.95);
        Take(A, 2, 0);
        Take(B, 3, 0);
        Take(A, 3, 0);
        Assert.Equal(_given.Select(f => f.Utc).Order(), _given.Select(f => f.Utc));
    }

    private static Instant At(double s) => Start.PlusSeconds(s);

    private void Take(SourceId source, int second, double late, RefusalReasons refused = RefusalReasons.None,
        int satellites = 8, double hdop = 1) => _joiner.Take(new Fix
        {
            Source = source,
            Heard = At(second + late),
            Utc = At(second),
            DateFrom = DateOrigin.Receiver,
            Refused = refused,
            SatellitesUsed = satellites,
            Hdop = hdop,
        }, At(second + late));
}
