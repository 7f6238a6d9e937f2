using Groundstation.Console.Cells;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;

namespace Groundstation.Console.Plots;

/// <summary>How metres become dots in the plan view.</summary>
/// <param name="Map">The flat map; its origin is the launch place or the first place heard.</param>
/// <param name="West">Left edge, metres east of the origin.</param>
/// <param name="Top">Upper edge, metres north of the origin.</param>
/// <param name="Scale">Metres a dot.</param>
internal readonly record struct Frame(Local Map, double West, double Top, double Scale)
{
    /// <summary>Dots from the upper left.</summary>
    public (double X, double Y) Dot(GeoPoint at)
    {
        (double east, double north) = Map.Of(at);
        return Dot(east, north);
    }

    /// <summary>Dots from the upper left.</summary>
    public (double X, double Y) Dot(double east, double north) => ((east - West) / Scale, (Top - north) / Scale);

    /// <summary>A frame that shows what the view asks for.</summary>
    public static Frame Fit(Snapshot s, View view, Pane pane, GeoPoint anchor)
    {
        Local map = new(anchor);
        Bounds bounds = new();
        bounds.Add((0, 0), 500);
        foreach (Waypoint w in s.Track) bounds.Add(map.Of(w.Position), 0);
        if (s.Landing is { } landing)
        {
            foreach (Waypoint w in landing.Path) bounds.Add(map.Of(w.Position), 0);
            bounds.Add(map.Of(landing.Position), landing.Area95.MajorM);
        }

        if (s.Chase is { } chase) bounds.Add(map.Of(chase.Position), 0);
        int wide = pane.Width * 2, high = pane.Height * 4;
        double need = Math.Max(bounds.Width / Math.Max(1, wide - 6), bounds.Height / Math.Max(1, high - 6));
        double scale = Ticks.FineNotBelow(Math.Max(need, 0.5));
        (double east, double north) = bounds.Centre;
        if (view.Zoom != 0 || view.Follow != Follow.Everything) scale = Ticks.Step(Ticks.NotBelow(scale), -view.Zoom);
        if (view.Follow == Follow.Balloon && Shown.Place(s) is { } balloon) (east, north) = map.Of(balloon);
        if (view.Follow == Follow.Landing && s.Landing is { } l) (east, north) = map.Of(l.Position);
        east += view.PanEast * wide * scale / 8;
        north += view.PanNorth * high * scale / 8;
        // Edges on whole cells: the picture moves by cells, not by dots, and most cells stay as they are.
        double west = Math.Floor((east - wide * scale / 2) / (scale * 2)) * scale * 2;
        double top = Math.Ceiling((north + high * scale / 2) / (scale * 4)) * scale * 4;
        return new Frame(map, west, top, scale);
    }

    private struct Bounds()
    {
        private double _west = double.MaxValue, _east = double.MinValue, _south = double.MaxValue,
            _north = double.MinValue;

        public readonly double Width => _east - _west;

        public readonly double Height => _north - _south;

        public readonly (double, double) Centre => ((_west + _east) / 2, (_south + _north) / 2);

        public void Add((double East, double North) at, double around)
        {
            (_west, _east) = (Math.Min(_west, at.East - around), Math.Max(_east, at.East + around));
            (_south, _north) = (Math.Min(_south, at.North - around), Math.Max(_north, at.North + around));
        }
    }
}
