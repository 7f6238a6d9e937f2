using Groundstation.Core;

namespace Groundstation.Console.Screens;

/// <summary>The line in which a key asks back: a question for yes or no, or one for a text.</summary>
internal sealed partial class Controls
{
    private void Ask(string verb, string question, string hint, bool wantsText) =>
        View = View with { Prompt = new Prompt(verb, question, hint, wantsText) };

    /// <summary>Why a key does nothing here.</summary>
    private void Tell(string why) => Ask("", why, "any key goes on", false);

    private void Answer(Prompt prompt, string key)
    {
        if (!prompt.WantsText)
        {
            View = View with { Prompt = null };
            if (prompt.Verb.Length == 0 || key is not ("y" or "Y")) return;
            if (prompt.Verb == "quit") Quit = true;
            else feed.Post(new OperatorAct(prompt.Verb, ""));
            return;
        }

        switch (key)
        {
            case "Esc" or "Ctrl+C": View = View with { Prompt = null }; break;
            case "Enter": Finish(prompt); break;
            case "Backspace" or "Delete" when prompt.Typed.Length > 0:
                View = View with { Prompt = prompt with { Typed = prompt.Typed[..^1] } };
                break;
            default:
                if (key.Length == 1 && prompt.Typed.Length < 200)
                    View = View with { Prompt = prompt with { Typed = prompt.Typed + key, Complaint = "" } };
                break;
        }
    }

    private void Finish(Prompt prompt)
    {
        string typed = prompt.Typed.Trim(), complaint = "";
        if (prompt.Verb == "filter") View = View with { Filter = typed, Back = 0 };
        else if (typed.Length > 0) complaint = Taken(prompt.Verb, typed);
        View = View with { Prompt = complaint.Length == 0 ? null : prompt with { Complaint = complaint } };
    }

    /// <summary>Does what was typed; what is wrong with it, empty when nothing is.</summary>
    private string Taken(string verb, string typed)
    {
        if (verb == "go-to") return feed.GoTo(typed) ? "" : "or start, launch, silence, landed, alarm";
        (string? argument, string complaint) = Answers.Read(verb, typed, View.UnitsOver(feed.Newest));
        if (argument is null) return complaint;
        feed.Post(new OperatorAct(verb, argument));
        return "";
    }
}
