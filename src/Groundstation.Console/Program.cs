using Groundstation.Console.Commands;

LastWord.Install(Console.Error);
return CommandLine.Run(args, Console.Out, Console.Error);
