using Groundstation.Console.Commands;

return CommandLine.Run(args, Console.Out, Console.Error);
