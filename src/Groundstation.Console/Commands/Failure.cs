namespace Groundstation.Console.Commands;

/// <summary>A failure that the user can do something about: one line, naming what and the remedy.</summary>
internal sealed class Failure(string message) : Exception(message);
