using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Terminal.Gui.Input;
using Terminal.Gui.ViewBase;
using Terminal.Gui.Views;

namespace Groundstation.Console.Window;

/// <summary>
/// The window: repaints when there is a newer snapshot, or when a key or a new size asks for it. It waits for nothing and
/// keeps nothing but the newest snapshot.
/// </summary>
internal sealed class ConsoleWindow : Runnable
{
    private static readonly TimeSpan Beat = TimeSpan.FromMilliseconds(100);
    private readonly ISnapshotFeed _feed;
    private readonly CanvasView _view;
    private readonly Func<bool> _broken;
    private readonly Action _ring;
    private readonly Bell _bell = new();
    private readonly Pointer _pointer;
    private Snapshot? _shown;
    private FeedStatus? _status;

    /// <summary>
    /// A window over a session; it closes when <paramref name="broken"/> says that the session has failed.
    /// <paramref name="ring"/> strikes the terminal's bell once; <paramref name="send"/> takes what goes to the terminal,
    /// null: the library's driver.
    /// </summary>
    public ConsoleWindow(ISnapshotFeed feed, Palette palette, bool ascii, Func<bool> broken, Action? ring = null,
        Action<string>? send = null)
    {
        _feed = feed;
        _broken = broken;
        _ring = ring ?? (() => { });
        Controls = new Controls(feed);
        _pointer = new Pointer(Controls);
        Title = "groundstation";
        Width = Dim.Fill();
        Height = Dim.Fill();
        CanFocus = true;
        _view = new CanvasView(new Canvas(ascii), palette, Paint, send);
        Add(_view);
        IsRunningChanged += (_, e) =>
        {
            if (!e.Value) return;
            // The library ends the program on Esc and on its own quit key; here only q does, after asking.
            App!.Keyboard.KeyBindings.Remove(Key.Esc);
            // Ctrl+Z would stop the whole station: nothing more would be received, nor recorded.
            App.Keyboard.KeyBindings.Remove(Key.Z.WithCtrl);
            App.Mouse.MouseEvent += OnMouse;
            App.Driver!.ClearedContents += (_, _) => _view.DrawAnew();
            App.AddTimeout(Beat, Strike);
        };
    }

    /// <summary>What the keys have led to.</summary>
    public Controls Controls { get; }

    /// <summary>Looks for news; what there is will be drawn in this round of the library's loop.</summary>
    public void Look()
    {
        if (_broken()) App?.RequestStop();
        // Lines are counted with every line; the figure comes along with the next snapshot.
        FeedStatus status = _feed.Status;
        if (!ReferenceEquals(_shown, _feed.Newest) || _status is not { } shown || (status with { Lines = shown.Lines }) != shown)
            _view.SetNeedsDraw();
    }

    /// <inheritdoc/>
    protected override bool OnClearingViewport() => true;

    /// <inheritdoc/>
    protected override bool OnKeyDown(Key key)
    {
        if (key == Key.L.WithCtrl)
        {
            _view.DrawAnew();
            return true;
        }

        if (KeyName.Of(key) is not { } name) return false;
        if (!Controls.Press(name)) return name == "Ctrl+C";
        if (Controls.Quit) App?.RequestStop();
        _view.SetNeedsDraw();
        return true;
    }

    private bool Strike()
    {
        if (_feed.Newest is { } newest && _bell.Tick(newest.Alarms, Controls.View.Muted)) _ring();
        return true;
    }

    private void OnMouse(object? sender, Mouse mouse)
    {
        (int x, int y) = (mouse.ScreenPosition.X, mouse.ScreenPosition.Y);
        bool changed = false;
        if (mouse.Flags.HasFlag(MouseFlags.WheeledUp)) changed = _pointer.Wheel(1);
        else if (mouse.Flags.HasFlag(MouseFlags.WheeledDown)) changed = _pointer.Wheel(-1);
        else if (mouse.Flags.HasFlag(MouseFlags.LeftButtonReleased))
            changed = _pointer.Release(x, y, Viewport.Width, Viewport.Height, _feed.Status.IsReplay);
        else if (mouse.Flags.HasFlag(MouseFlags.LeftButtonPressed) && !mouse.Flags.HasFlag(MouseFlags.PositionReport))
            _pointer.Press(x, y);
        if (!changed) return;
        if (Controls.Quit) App?.RequestStop();
        _view.SetNeedsDraw();
    }

    private void Paint(Canvas canvas)
    {
        _shown = _feed.Newest;
        _status = _feed.Status;
        Painter.Paint(canvas, _shown, _status, Controls.View);
    }
}
