using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;

namespace Groundstation.Io.Sharing;

/// <summary>What a follower does by the clock: looks after its files, asks again, goes on alone in silence.</summary>
public sealed partial class FollowSession
{
    private void OnTime()
    {
        TimeSpan silent = _time.GetElapsedTime(_heard);
        if (_looked == 0 || _time.GetElapsedTime(_looked) > TimeSpan.FromSeconds(1))
        {
            _looked = _time.GetTimestamp();
            _folder.Look();
            _notes.AddRange(_folder.TakeMishaps());
            _folder.Sync();
            if (silent > _askAgain)
                Ask(_folder.RecordingLength);
            if (_folder.Trouble.Length > 0 || !_another)
                _fault = _folder.Trouble;
        }

        if (silent < _quiet)
            return;
        if (_alone is null)
            Alone(_state.Length > 0 ? _state : "connected, but the sharing station says nothing");
        Instant now = _runner.Last + silent;
        _alone!.TickTo(now.ToWholeSecond());
    }

    private void Alone(string why)
    {
        StationRunner alone = new(Plan, null, _time, _publishEvery);
        using (RecordingReader reader = RecordingReader.Open(_folder.RecordingPath))
        {
            while (reader.Read(out RecordedEvent e))
                alone.Apply(e);
        }

        alone.Apply(RecordedEvent.Linked(_share, alone.Last, LinkState.Lost, why));
        alone.Publish();
        Volatile.Write(ref _alone, alone);
    }
}
