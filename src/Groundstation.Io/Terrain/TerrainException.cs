namespace Groundstation.Io.Terrain;

/// <summary>A terrain folder or tile that cannot be used; the message is one line with the file and the remedy.</summary>
public sealed class TerrainException(string message) : Exception(message);
