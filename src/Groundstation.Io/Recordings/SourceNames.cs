using System.Text;
using Groundstation.Core.Receive;

namespace Groundstation.Io.Recordings;

/// <summary>The source names of a recording, each made once.</summary>
internal sealed class SourceNames
{
    /// <summary>The source of a log that names none.</summary>
    public static readonly SourceId First = new("radio1");

    // A hostile log must not make the station keep a thousand receivers.
    private const int Most = 64;

    private readonly List<SourceId> _known = [];

    /// <summary>
    /// The source of that name. A foreign name is only a label; one that could not be ours becomes the first radio's.
    /// </summary>
    public SourceId Find(ReadOnlySpan<byte> name)
    {
        foreach (SourceId known in _known)
        {
            if (Ascii.Equals(name, known.Name))
                return known;
        }

        if (!LineTag.IsName(name) || name.SequenceEqual("station"u8) || _known.Count == Most)
            return First;
        SourceId added = new(Encoding.ASCII.GetString(name));
        _known.Add(added);
        return added;
    }
}
