using System.Text;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Report;

/// <summary>
/// A folder that a command fills with files of its own. Which ones are its own stands in a list beside them, written
/// first: a later run replaces these and removes those it no longer makes, and never touches another file.
/// </summary>
internal sealed class OutputFolder
{
    /// <summary>Name of the list.</summary>
    public const string ListName = "report-files.txt";

    private readonly string _path;

    /// <summary>Makes the folder and claims the names.</summary>
    /// <exception cref="UserErrorException">It cannot be written, or another's file has one of the names.</exception>
    public OutputFolder(string path, IReadOnlyCollection<string> names)
    {
        _path = path;
        string list = Path.Combine(path, ListName);
        try
        {
            Directory.CreateDirectory(path);
            HashSet<string> before = File.Exists(list) ? [.. File.ReadAllLines(list)] : [];
            foreach (string name in names)
            {
                if (!before.Contains(name) && File.Exists(Path.Combine(path, name)))
                {
                    throw new UserErrorException($"{Path.Combine(path, name)}: is there already and is not this "
                        + "report's own; move it away or name another folder with --out");
                }
            }

            WriteWhole(list, to => to.Write(Encoding.UTF8.GetBytes(string.Join('\n', names.Order(
                StringComparer.Ordinal)) + "\n")));
            // A name in the list is a plain file name, whatever somebody wrote into it.
            foreach (string old in before.Except(names).Where(n => n.Length > 0 && Path.GetFileName(n) == n)
                .Select(n => Path.Combine(path, n)).Where(File.Exists))
                File.Delete(old);
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException(
                $"{path}: cannot be written ({FileTrouble.Words(e)}); name another folder with --out", e);
        }
    }

    /// <summary>Writes one file whole: a reader sees the old one or the new one.</summary>
    public void Write(string name, Action<Stream> write)
    {
        string file = Path.Combine(_path, name);
        try
        {
            WriteWhole(file, write);
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException($"{file}: cannot be written ({FileTrouble.Words(e)})", e);
        }
    }

    private static void WriteWhole(string file, Action<Stream> write)
    {
        string anew = file + ".new";
        using (FileStream to = new(anew, FileMode.Create, FileAccess.Write))
            write(to);
        File.Move(anew, file, overwrite: true);
    }
}
