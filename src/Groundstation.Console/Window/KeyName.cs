using System.Text;
using Terminal.Gui.Drivers;
using Terminal.Gui.Input;

namespace Groundstation.Console.Window;

/// <summary>
/// The library's keys as the names that <c>Keys</c> uses: a character, or a word for keys without one.
/// </summary>
internal static class KeyName
{
    /// <summary>The name; null for keys without use here.</summary>
    public static string? Of(Key key)
    {
        if (key == Key.C.WithCtrl) return "Ctrl+C";
        if (key.IsCtrl || key.IsAlt) return null;
        return key.KeyCode switch
        {
            KeyCode.Enter => "Enter",
            KeyCode.Esc => "Esc",
            KeyCode.Backspace => "Backspace",
            KeyCode.Delete => "Delete",
            KeyCode.CursorUp => "Up",
            KeyCode.CursorDown => "Down",
            KeyCode.CursorLeft => "Left",
            KeyCode.CursorRight => "Right",
            KeyCode.PageUp => "PageUp",
            KeyCode.PageDown => "PageDown",
            KeyCode.Home => "Home",
            KeyCode.End => "End",
            _ => key.AsRune is { Value: >= 0x20 } rune && rune != Rune.ReplacementChar ? rune.ToString() : null,
        };
    }
}
