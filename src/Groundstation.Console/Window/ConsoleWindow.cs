using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Terminal.Gui.Drawing;
using Terminal.Gui.Input;
using Terminal.Gui.ViewBase;
using Terminal.Gui.Views;
using Attribute = Terminal.Gui.Drawing.Attribute;

namespace Groundstation.Console.Window;

/// <summary>
/// The window: looks twenty times a second whether there is a newer snapshot and repaints only then, or when a key or a
/// new size asks for it. It waits for nothing and keeps nothing but the newest snapshot.
/// </summary>
internal sealed class ConsoleWindow : Runnable
{
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(50);
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
    /// <paramref name="ring"/> strikes the terminal's bell once.
    /// </summary>
    public ConsoleWindow(ISnapshotFeed feed, Palette palette, bool ascii, Func<bool> broken, Action? ring = null)
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
        Attribute plain = palette.Of(Ink.Plain);
        SetScheme(new Scheme { Normal = plain, Focus = plain, HotNormal = plain, HotFocus = plain });
        _view = new CanvasView(new Canvas(ascii), palette, Paint);
        Add(_view);
        IsRunningChanged += (_, e) =>
        {
            if (!e.Value) return;
            // The library ends the program on Esc and on its own quit key; here only q does, after asking.
            App!.Keyboard.KeyBindings.Remove(Key.Esc);
            App.Mouse.MouseEvent += OnMouse;
            App.AddTimeout(Look, Tick);
        };
    }

    /// <summary>What the keys have led to.</summary>
    public Controls Controls { get; }

    /// <summary>Looks for news at once; also what the timer does. True: go on looking.</summary>
    public bool Tick()
    {
        if (_broken()) App?.RequestStop();
        if (_feed.Newest is { } newest && _bell.Tick(newest.Alarms, Controls.View.Muted)) _ring();
        if (!ReferenceEquals(_shown, _feed.Newest) || _status != _feed.Status) _view.SetNeedsDraw();
        return true;
    }

    /// <inheritdoc/>
    protected override bool OnClearingViewport() => true;

    /// <inheritdoc/>
    protected override bool OnKeyDown(Key key)
    {
        if (KeyName.Of(key) is not { } name) return false;
        if (!Controls.Press(name)) return name == "Ctrl+C";
        if (Controls.Quit) App?.RequestStop();
        _view.SetNeedsDraw();
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
