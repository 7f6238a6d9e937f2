using System.Text;
using Groundstation.Core.Plan;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Folders;

/// <summary>The plan in a flight folder: kept with the files that it names.</summary>
public sealed partial class FlightFolder
{
    private byte[]? _plan;

    /// <summary>
    /// Keeps the plan and the map files that it names: a copy of its file, or with none a file that says which
    /// defaults are in force.
    /// </summary>
    /// <param name="planFile">The file it came from; null for the defaults.</param>
    /// <param name="plan">The plan in force.</param>
    public void KeepPlan(string? planFile, FlightPlan plan)
    {
        string kept = System.IO.Path.Combine(Path, PlanName);
        try
        {
            byte[] text = planFile is null ? Encoding.UTF8.GetBytes(Defaults(plan))
                : KeptPlanText.Of(File.ReadAllText(planFile), plan, KeptWinds.Copy(plan, Path));
            // The maps first: a plan that names them must not stand without them.
            for (int i = 0; i < plan.KeepOutFiles.Length; i++)
                Copy(plan.KeepOutFiles[i], System.IO.Path.Combine(Path, KeptPlanText.CopyName(i, plan.KeepOutFiles[i])));
            string anew = kept + ".new";
            File.WriteAllBytes(anew, text);
            File.Move(anew, kept, overwrite: true);
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException($"{kept}: cannot be written ({FileTrouble.Words(e)})", e);
        }
    }

    /// <summary>A replay needs the plan: one that was deleted with its folder is written again.</summary>
    private void LookAfterPlan()
    {
        string path = System.IO.Path.Combine(Path, PlanName);
        try
        {
            if (!File.Exists(path) && _plan is not null)
                File.WriteAllBytes(path, _plan);
            else if (_plan is null && File.Exists(path))
                _plan = File.ReadAllBytes(path);
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            // The recording meets the same trouble and tells it.
        }
    }

    private static void Copy(string from, string to)
    {
        if (System.IO.Path.GetFullPath(from) == System.IO.Path.GetFullPath(to)) return;
        File.Copy(from, to + ".new", overwrite: true);
        File.Move(to + ".new", to, overwrite: true);
    }

    private static string Defaults(FlightPlan plan)
    {
        StringBuilder text = new("# No plan was loaded. In force:\n");
        foreach (string line in PlanDefaults.Describe(plan))
            text.Append("# ").Append(line).Append('\n');
        return text.ToString();
    }
}
