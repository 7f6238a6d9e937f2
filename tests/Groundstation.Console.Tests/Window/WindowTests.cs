using Groundstation.Console.Cells;
using Groundstation.Console.Window;
using Terminal.Gui.App;
using Terminal.Gui.Drivers;
using Terminal.Gui.Input;
using Terminal.Gui.Testing;
using Terminal.Gui.Time;
using Xunit;

namespace Groundstation.Console.Tests.Window;

/// <summary>The library's statics (colour mode, schemes) are shared: these tests run one after another.</summary>
[CollectionDefinition("terminal library", DisableParallelization = true)]
public class TerminalLibraryTests;

/// <summary>The window on the headless driver, with a clock of its own.</summary>
[Collection("terminal library")]
public sealed class WindowTests : IDisposable
{
    private readonly FakeFeed _feed = new() { Newest = DemoSnapshots.Descent() };
    private readonly IApplication _app;
    private readonly ConsoleWindow _window;
    private readonly SessionToken _token;
    private readonly SentPicture _terminal = new(80, 24);

    // Else a developer's own terminal would be opened.
    static WindowTests() => Environment.SetEnvironmentVariable("DisableRealDriverIO", "1");

    public WindowTests()
    {
        _app = Application.Create(new VirtualTimeProvider());
        _app.Init(DriverRegistry.Names.ANSI);
        _app.Driver!.SetScreenSize(80, 24);
        _window = new ConsoleWindow(_feed, new Palette(Colours.Sixteen), ascii: false, () => false, send: _terminal.Feed);
        _token = _app.Begin(_window)!;
        _app.LayoutAndDraw();
    }

    public void Dispose()
    {
        _app.End(_token);
        _window.Dispose();
        _app.Dispose();
    }

    private string Screen => _terminal.Screen;

    private string Row(int row) => _terminal.Row(row);

    private void Resize(int width, int height)
    {
        _terminal.Resize(width, height);
        _app.Driver!.SetScreenSize(width, height);
        _app.LayoutAndDraw();
    }

    private void Press(Key key)
    {
        _app.InjectKey(key);
        _app.LayoutAndDraw();
    }

    [Fact]
    public void The_overview_is_what_opens()
    {
        Assert.Contains("DESCENT", Row(0));
        Assert.Contains("19 314 m", Row(0));
        Assert.StartsWith("CAUTION", Row(1));
        Assert.Contains("Landing estimate", Screen);
    }

    [Fact]
    public void Keys_lead_to_the_screens_and_back()
    {
        Press(Key.D7);
        Assert.Contains("What is wrong?", Row(3));
        Press(new Key('?'));
        Assert.Contains("Keys", Row(3));
        Press(Key.Esc);
        Assert.Contains("What is wrong?", Row(3));
        Press(Key.D2);
        Press(Key.CursorLeft);
        Assert.Contains("moved", Row(3));
        Press(Key.D1);
        Assert.Contains("Position", Row(3));
    }

    [Fact]
    public void A_newer_snapshot_replaces_every_old_figure()
    {
        _feed.Newest = DemoSnapshots.Silence();
        _window.Look();
        _app.LayoutAndDraw();
        Assert.EndsWith("NOT HEARD 8 min 20 s", Row(0));
        Assert.StartsWith("WARNING", Row(1));
        Assert.DoesNotContain("heard 1 s ago", Screen);
    }

    [Fact]
    public void What_the_terminal_shows_is_exactly_what_was_painted()
    {
        Press(Key.D6);
        Press(Key.D3);
        Canvas canvas = new();
        canvas.Reset(80, 24);
        Console.Screens.Painter.Paint(canvas, _feed.Newest, _feed.Status, _window.Controls.View);
        for (int y = 0; y < 24; y++) Assert.Equal(canvas.Row(y), Row(y));
    }

    [Theory]
    [InlineData(120, 40)]
    [InlineData(160, 48)]
    [InlineData(40, 12)]
    [InlineData(1, 1)]
    public void Every_size_draws_and_the_way_back_too(int width, int height)
    {
        Resize(width, height);
        Assert.DoesNotContain('#', Screen);
        if (width >= 80) Assert.Contains("2026-06-21", Row(0));
        Resize(80, 24);
        Assert.Contains("19 314 m", Row(0));
        Assert.Contains("9 Log", Row(23));
    }

    [Fact]
    public void A_warning_has_its_own_attribute_beside_its_word()
    {
        _feed.Newest = DemoSnapshots.Silence();
        _window.Look();
        _app.LayoutAndDraw();
        Assert.Equal("0;1;37;41", _terminal.Attribute(0, 1));
    }

    [Fact]
    public void Acknowledge_reaches_the_session()
    {
        Press(Key.A);
        Assert.Equal("link-lost", Assert.Single(_feed.Acts).Argument);
    }

    [Fact]
    public void The_mouse_presses_keys_in_the_footer_turns_its_wheel_and_drags_the_plan_view()
    {
        Mouse(Row(23).IndexOf("2 Where", StringComparison.Ordinal) + 3, 23, MouseFlags.LeftButtonPressed);
        Mouse(Row(23).IndexOf("2 Where", StringComparison.Ordinal) + 3, 23, MouseFlags.LeftButtonReleased);
        Assert.Contains("Where is it?", Row(3));
        Mouse(30, 10, MouseFlags.WheeledUp);
        Assert.Equal(1, _window.Controls.View.Zoom);
        Mouse(30, 10, MouseFlags.LeftButtonPressed);
        Mouse(50, 10, MouseFlags.LeftButtonReleased);
        Assert.Equal(-2, _window.Controls.View.PanEast);
        Assert.Contains("moved", Row(3));
        Mouse(Row(22).IndexOf("quit", StringComparison.Ordinal), 22, MouseFlags.LeftButtonPressed);
        Mouse(Row(22).IndexOf("quit", StringComparison.Ordinal), 22, MouseFlags.LeftButtonReleased);
        Assert.Contains("Stop the station?", Row(22));
    }

    private void Mouse(int x, int y, MouseFlags flags)
    {
        _app.InjectMouse(new Mouse { ScreenPosition = new System.Drawing.Point(x, y), Flags = flags });
        _app.LayoutAndDraw();
    }

    [Fact]
    public void Quitting_asks_first()
    {
        Press(Key.Q);
        Assert.Contains("Stop the station?", Row(22));
        Assert.False(_window.Controls.Quit);
        Press(Key.Enter);
        Assert.DoesNotContain("Stop the station?", Screen);
        Press(Key.Q);
        Press(Key.Y);
        Assert.True(_window.Controls.Quit);
    }

    [Fact]
    public void Neither_escapes_nor_links_from_the_radio_reach_the_terminal()
    {
        Press(Key.D6);
        Resize(160, 48);
        // Whatever is no move, attribute or clearing would have thrown.
        Assert.Contains("x.example", Screen);
    }

    [Fact]
    public void Only_what_changes_is_sent_and_the_whole_on_request()
    {
        int before = _terminal.Sent;
        _feed.Newest = _feed.Newest! with { Utc = _feed.Newest!.Utc.PlusSeconds(1) };
        _window.Look();
        _app.LayoutAndDraw();
        Assert.InRange(_terminal.Sent - before, 1, 200);
        _window.Look();
        before = _terminal.Sent;
        _app.LayoutAndDraw();
        Assert.Equal(before, _terminal.Sent);

        string whole = Screen;
        _terminal.Resize(80, 24);
        Press(Key.L.WithCtrl);
        Assert.Equal(whole, Screen);
    }
}
