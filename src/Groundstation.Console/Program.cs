using Groundstation.Console.Commands;

using LastingWriter output = new(Console.Out), error = new(Console.Error);
LastWord.Install(error);
return CommandLine.Run(args, output, error);
