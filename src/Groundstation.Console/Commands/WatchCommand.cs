using System.CommandLine;
using System.CommandLine.Parsing;
using Groundstation.Console.Feeds;
using Groundstation.Core;
using Groundstation.Core.Plan;
using Groundstation.Core.Receive;
using Groundstation.Io;
using Groundstation.Io.Folders;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Sessions;
using Groundstation.Io.Sharing;
using Groundstation.Io.Sources;

namespace Groundstation.Console.Commands;

/// <summary><c>watch</c>: a flight as it happens.</summary>
internal static class WatchCommand
{
    /// <summary>The command.</summary>
    public static Command Create(TextWriter output, TextWriter error)
    {
        Option<string[]> from = new("--from")
        {
            Description = $"Tracker's receiver: {SourceAddress.Forms}; may be given more than once",
            HelpName = "SOURCE",
            Required = true,
        };
        Option<string?> chase = new("--chase") { Description = "The chase car's own receiver", HelpName = "SOURCE" };
        from.Validators.Add(Check);
        chase.Validators.Add(Check);
        Option<string?> share = new("--share")
        {
            Description = $"Share the flight over MQTT: {ShareTarget.Forms}",
            HelpName = "WHERE",
            Arity = ArgumentArity.ZeroOrOne,
        };
        share.Validators.Add(CheckShare);
        SessionOptions common = new("Folder for the flight's logs; default: flights/TIME. A flight in it goes on",
            "the one kept in that folder");
        StationCommand command = new("watch", "Watch a flight live.",
            $"groundstation watch --from serial:{SourceAddress.ExamplePorts.Radio}@9600 --plan plan.toml",
            "groundstation watch --from serial:auto --from tcp:127.0.0.1:10110 --chase serial:"
                + SourceAddress.ExamplePorts.Car,
            "groundstation watch --from serial:auto --share=listen:0.0.0.0:1883/flight",
            "groundstation watch --from mqtt:192.168.4.1/flight")
        {
            from, chase, share, common.Plan, common.Flight, common.Headless, common.Ascii,
        };
        command.SetAction(int (ParseResult parsed) =>
        {
            bool screen = SessionRun.HasScreen(parsed.GetValue(common.Headless), error);
            List<(SourceId Id, string Typed)> sources =
                [.. parsed.GetRequiredValue(from).Select((typed, i) => (new SourceId($"radio{i + 1}"), typed))];
            if (parsed.GetValue(chase) is { } car) sources.Add((SourceId.Chase, car));
            if (parsed.GetResult(share) is not null && sources.Any(s => Followed(s.Typed)))
            {
                throw new UserErrorException(
                    "--share stands with a flight of one's own; what is followed is shared already");
            }

            if (sources.Any(s => Followed(s.Typed)) && sources.Count > 1)
            {
                throw new UserErrorException(
                    "--from mqtt:… follows a whole flight with all its receivers: it stands alone");
            }

            if (sources.Count(s => s.Typed == "-") > 1)
                throw new UserErrorException("- (standard input) can be one source only");
            string folder = parsed.GetValue(common.Flight) ?? FlightFolder.DefaultPath(TimeProvider.System);
            if (Followed(sources[0].Typed))
            {
                FollowRun.Run(sources[0].Typed, folder, parsed.GetValue(common.Plan), screen,
                    parsed.GetValue(common.Ascii), output);
                return 0;
            }

            ShareTarget? target = parsed.GetResult(share) is null ? null : ShareTarget.Parse(parsed.GetValue(share));
            Watch(sources, folder, parsed.GetValue(common.Plan), screen, parsed.GetValue(common.Ascii), target, output);
            return 0;
        });
        return command;
    }

    private static void Watch(List<(SourceId Id, string Typed)> sources, string folder, string? planFile, bool screen,
        bool ascii, ShareTarget? share, TextWriter output)
    {
        // The plan is read before the folder is made: a wrong plan leaves nothing behind.
        FlightPlan? stated = planFile is null ? null : PlanReader.Read(planFile);
        bool made = !Directory.Exists(folder);
        FlightFolder flight = FlightFolder.Open(folder, FolderUse.Live);
        LiveSession session;
        try
        {
            planFile ??= flight.KeptPlan;
            FlightPlan plan = stated ?? (planFile is null ? FlightPlan.Default : PlanReader.Read(planFile));
            if (planFile != flight.KeptPlan || planFile is null) flight.KeepPlan(planFile, plan);
            SourcePump[] pumps = [.. sources.Select(s =>
                new SourcePump(s.Id, SourceAddress.Parse(s.Typed), TimeProvider.System))];
            session = new LiveSession(plan, flight, pumps, TimeProvider.System, screen ? SessionRun.SnapshotEvery
                : null)
            { LinkChanged = screen ? null : link => Tell(link, output) };
        }
        catch
        {
            flight.Dispose();
            throw;
        }

        using (session)
        using (Share(share, folder, made, session))
        {
            if (screen)
            {
                string[] names = [.. sources.Select(s => $"{s.Id} at {s.Typed}")];
                SessionRun.OnScreen(new LiveFeed(session, folder, names), stop => session.Run(stop), ascii);
            }
            else
            {
                Tell(session.Plan, planFile, output);
                SessionRun.Headless(stop => session.Run(stop, untilSourcesEnd: true));
            }

            output.Write(HeadlessSummary.Text(session.Outcome()));
        }
    }

    /// <summary>Begins to share; when that fails, a folder made for this flight is not left behind empty.</summary>
    private static FlightShare? Share(ShareTarget? target, string folder, bool made, LiveSession session)
    {
        try
        {
            return target is null ? null
                : new FlightShare(target, folder, said => session.Act(new OperatorAct("share", said)));
        }
        catch (UserErrorException) when (made)
        {
            session.Dispose();
            Directory.Delete(folder, recursive: true);
            throw;
        }
    }

    /// <summary>Which plan is in force and what it leaves to defaults, before anything is heard.</summary>
    private static void Tell(FlightPlan plan, string? planFile, TextWriter output)
    {
        output.Write(planFile is null ? "plan: none, in force are\n" : $"plan: {planFile}, not stated in it\n");
        foreach (string line in PlanDefaults.Describe(plan)) output.Write($"  {line}\n");
        output.Flush();
    }

    /// <summary>A change of a link, on a line of its own as it comes.</summary>
    private static void Tell(LinkStatus link, TextWriter output)
    {
        string state = link.State switch
        {
            LinkState.Opening => "opening",
            LinkState.Up => "up",
            LinkState.Lost => "lost",
            _ => "ended",
        };
        string why = link.Why.Length > 0 ? ": " + link.Why : "";
        output.WriteLine(CommandLine.OneLine($"{link.Since} {link.Source} {state}{why}"));
        output.Flush();
    }

    /// <summary>A source that cannot be meant is wrong usage, told before anything is opened.</summary>
    private static void Check(OptionResult option)
    {
        foreach (Token token in option.Tokens)
        {
            try
            {
                SourceAddress.Parse(token.Value);
            }
            catch (UserErrorException e)
            {
                option.AddError(e.Message);
            }
        }
    }

    private static bool Followed(string typed) => SourceAddress.Parse(typed) is MqttAddress;

    private static void CheckShare(OptionResult option)
    {
        foreach (Token token in option.Tokens)
        {
            try
            {
                ShareTarget.Parse(token.Value);
            }
            catch (UserErrorException e)
            {
                option.AddError(e.Message);
            }
        }
    }
}
