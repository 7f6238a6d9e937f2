using Groundstation.Core.Fill;

namespace Groundstation.Core.Plan;

/// <summary>Which of its figures a fill is to reach.</summary>
public enum FillAim
{
    /// <summary>An ascent rate at launch, m/s.</summary>
    AscentRate,

    /// <summary>A free lift, kg.</summary>
    FreeLift,

    /// <summary>A burst height, m above mean sea level.</summary>
    BurstHeight,

    /// <summary>So much gas, m³ at the site.</summary>
    Gas,

    /// <summary>All that the cylinders give.</summary>
    AllCylinders,
}

/// <summary>The balloon and its gas, as the plan states them. Null is not stated.</summary>
public sealed record FillPlan
{
    /// <summary>
    /// Burst diameter over the root of the mass, m/√kg, where none is stated: the middle of two makers' sizes from 200
    /// g to 3 kg, which lie between 6.7 and 8.3 (second-hand).
    /// </summary>
    public const double UsualBurstDiameter = 7.4;

    /// <summary>Mass of the empty balloon, kg; null: no fill is worked out.</summary>
    public double? BalloonKg { get; init; }

    /// <summary>Diameter at which it bursts, m, as its maker tells.</summary>
    public double? BurstDiameterM { get; init; }

    /// <summary>Drag coefficient at launch.</summary>
    public double DragCoefficient { get; init; } = BalloonFill.UsualDragCoefficient;

    /// <summary>The gas. Default helium, pure.</summary>
    public LiftingGas Gas { get; init; } = new(GasKind.Helium);

    /// <summary>Pressure at the site, Pa; default the standard atmosphere's.</summary>
    public double? SitePressurePa { get; init; }

    /// <summary>Temperature at the site, °C; default the standard atmosphere's.</summary>
    public double? SiteTemperatureC { get; init; }

    /// <summary>What is wanted; null: the plan's ascent rate.</summary>
    public (FillAim Aim, double Value)? Wanted { get; init; }

    /// <summary>Inner volume of one cylinder, m³.</summary>
    public double? CylinderM3 { get; init; }

    /// <summary>Pressure that the cylinders' gauge shows, Pa above the air's.</summary>
    public double? CylinderGaugePa { get; init; }

    /// <summary>Temperature of the cylinders, °C; default the site's.</summary>
    public double? CylinderTemperatureC { get; init; }

    /// <summary>Number of cylinders.</summary>
    public int Cylinders { get; init; } = 1;

    /// <summary>Gas that the regulator lets through, m³/s at the site's pressure and temperature.</summary>
    public double? FlowM3PerS { get; init; }

    /// <summary>Mass of the empty jug that hangs under the neck while filling, with hose and clamp, kg.</summary>
    public double JugKg { get; init; } = 0.1;

    /// <summary>The burst diameter stated, or the usual one of a balloon of this mass, m.</summary>
    public double BurstDiameterOrUsualM => BurstDiameterM ?? UsualBurstDiameter * Math.Sqrt(BalloonKg ?? 0);
}

/// <summary>What hangs under the balloon, as the plan states it. Null is not stated.</summary>
public sealed record LoadPlan
{
    /// <summary>Boxes with all that is in them, kg.</summary>
    public double? BoxesKg { get; init; }

    /// <summary>Line, swivels and rings, kg.</summary>
    public double? LineKg { get; init; }

    /// <summary>Parachute, kg.</summary>
    public double? ParachuteKg { get; init; }

    /// <summary>Flags, pennants and radar reflector, kg.</summary>
    public double? FlagsKg { get; init; }

    /// <summary>Number of boxes.</summary>
    public int Packages { get; init; } = 1;

    /// <summary>Heaviest box, kg.</summary>
    public double? HeaviestKg { get; init; }

    /// <summary>Area of the smallest face of the heaviest box, m².</summary>
    public double? SmallestFaceM2 { get; init; }

    /// <summary>Force that parts the line, N.</summary>
    public double? LineBreakN { get; init; }

    /// <summary>Length from the balloon's neck to the lowest box, m.</summary>
    public double? TrainM { get; init; }

    /// <summary>Sum of the parts stated, kg; null: none is.</summary>
    public double? SumKg => (BoxesKg, LineKg, ParachuteKg, FlagsKg) is (null, null, null, null) ? null
        : (BoxesKg ?? 0) + (LineKg ?? 0) + (ParachuteKg ?? 0) + (FlagsKg ?? 0);
}

/// <summary>Who flies what, for the notice sheet. Empty is not stated.</summary>
public sealed record NoticePlan
{
    /// <summary>Who launches.</summary>
    public string Operator { get; init; } = "";

    /// <summary>How they are reached during the flight.</summary>
    public string Contact { get; init; } = "";

    /// <summary>The launch place in words.</summary>
    public string Place { get; init; } = "";

    /// <summary>Colours of balloon, parachute and boxes.</summary>
    public string Colours { get; init; } = "";

    /// <summary>Whom the notice goes to.</summary>
    public string To { get; init; } = "";
}
