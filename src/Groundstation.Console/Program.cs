using System.Text;
using Groundstation.Console.Commands;

// Windows' consoles begin with a code page of the eighties, which has neither braille nor most of our signs; what goes
// into a file would be written in it too.
if (OperatingSystem.IsWindows()) Console.OutputEncoding = new UTF8Encoding(false);
using LastingWriter output = new(Console.Out), error = new(Console.Error);
LastWord.Install(error);
return CommandLine.Run(args, output, error);
