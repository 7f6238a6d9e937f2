using System.CommandLine;
using System.Text;
using Groundstation.Console.Sheets;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Io;
using Groundstation.Io.PlanFile;

namespace Groundstation.Console.Commands;

/// <summary><c>plan</c>: what a plan comes to, a notice for air traffic services, and a new plan by
/// questions.</summary>
internal static class PlanCommand
{
    /// <summary>The command.</summary>
    public static Command Create(TextWriter output)
    {
        Argument<string> file = new("FILE") { Description = "The plan (TOML)" };
        Option<string?> notice = new("--notice")
        {
            Description = "Also write a notice for air traffic services to OUT (- prints only the notice); nothing "
                + "is sent",
            HelpName = "OUT",
        };
        PathOptions path = new();
        Option<bool> ask = new("--new") { Description = "Write FILE anew by asking questions; never overwrites" };
        StationCommand command = new("plan", "Gas, height, time, parachute and rules of a plan; what is doubtful in "
            + "it.",
            "groundstation plan plan.toml", "groundstation plan plan.toml --notice notice.txt",
            "groundstation plan plan.toml --launch 2026-06-21T09:00Z --out maps",
            "groundstation plan --new plan.toml") { file, notice, ask, path.Launch, path.Out, path.Ascii };
        command.SetAction(int (ParseResult parsed) =>
        {
            string planFile = parsed.GetRequiredValue(file);
            if (parsed.GetValue(ask))
            {
                New(planFile, output);
                return 0;
            }

            FlightPlan plan = path.AtLaunch(parsed, PlanReader.Read(planFile));
            // Worked out before a line is written: what is wrong with it leaves one line of error and nothing else.
            PlannedFlight[] flights = path.Flights(parsed, plan);
            string? area = flights is [var first, ..] ? PathSheet.LandingArea(first, plan) : null;
            string? noticeTo = parsed.GetValue(notice);
            if (noticeTo == "-")
            {
                output.Write(NoticeSheet.Text(plan, area));
                return 0;
            }

            if (noticeTo is not null) WriteNew(noticeTo, NoticeSheet.Text(plan, area));
            output.Write(PlanSheet.Text(plan) + path.Text(parsed, plan, flights));
            if (noticeTo is not null)
                output.Write(CommandLine.OneLine($"notice written to {noticeTo}; it has been sent to nobody") + "\n");
            return 0;
        });
        return command;
    }

    private static void New(string path, TextWriter output)
    {
        if (Path.Exists(path)) throw new UserErrorException($"{path} exists already; name a new file");
        // Told before forty questions, not after them.
        if (Path.GetDirectoryName(Path.GetFullPath(path)) is { } folder && !Directory.Exists(folder))
            throw new UserErrorException($"{folder}: no such folder; make it first");
        string text = new PlanQuestions(System.Console.In, output, System.Console.IsInputRedirected).Ask();
        WriteNew(path, text);
        output.Write(CommandLine.OneLine($"written to {path}; see groundstation plan {path}") + "\n");
    }

    private static void WriteNew(string path, string text)
    {
        if (Path.Exists(path)) throw new UserErrorException($"{path} exists already; name a new file");
        try
        {
            using FileStream stream = new(path, FileMode.CreateNew, FileAccess.Write);
            stream.Write(Encoding.UTF8.GetBytes(text));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new UserErrorException($"{path}: cannot be written; name another file, in a folder that is there");
        }
    }
}
