using SoloRide.Batteries;
using SoloRide.Exposure;
using SoloRide.Kit;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>Invented gear that several rides share.</summary>
public static class Gear
{
    /// <summary>A small kit of tools and of things for a wait.</summary>
    public static IReadOnlyList<KitItem> Usual { get; } =
    [
        new("spare tube", Mass.FromGrams(140), Volume.FromLiters(0.3), KitPlace.Bike, KitFunction.Tube),
        new("levers", Mass.FromGrams(30), Volume.FromLiters(0.05), KitPlace.Bike, KitFunction.TyreLever),
        new("pump", Mass.FromGrams(120), Volume.FromLiters(0.2), KitPlace.Bike, KitFunction.Air),
        new("plugs", Mass.FromGrams(25), Volume.FromLiters(0.05), KitPlace.Body, KitFunction.Plug) { Uses = 5 },
        new("multi-tool", Mass.FromGrams(150), Volume.FromLiters(0.1), KitPlace.Body, KitFunction.BoltKeys, KitFunction.ChainTool, KitFunction.SpokeKey),
        new("chain links", Mass.FromGrams(8), Volume.FromLiters(0.02), KitPlace.Body, KitFunction.ChainLink) { Uses = 2 },
        new("first aid", Mass.FromGrams(180), Volume.FromLiters(0.6), KitPlace.Body, KitFunction.FirstAid),
        new("whistle", Mass.FromGrams(10), Volume.FromLiters(0.01), KitPlace.Body, KitFunction.Whistle),
        new("small light", Mass.FromGrams(35), Volume.FromLiters(0.03), KitPlace.Body, KitFunction.Light),
        new("barrier bag", Mass.FromGrams(110), Volume.FromLiters(0.4), KitPlace.Body, KitFunction.BarrierBag),
        new("light jacket", Mass.FromGrams(250), Volume.FromLiters(0.9), KitPlace.Pack, KitFunction.Insulation),
        new("messenger", Mass.FromGrams(100), Volume.FromLiters(0.1), KitPlace.Body, KitFunction.Messenger),
    ];

    /// <summary>Summer clothing that can be put on for a wait.</summary>
    public static Outfit SummerWait { get; } = new([new Garment("jersey and shorts", 0.35), new Garment("wind shell", 0.25), new Garment("light insulated jacket", 0.5)]);

    /// <summary>Clothing of a cold ride that can be put on for a wait.</summary>
    public static Outfit WinterWait { get; } = new([new Garment("long jersey and tights", 0.6), new Garment("rain suit", 0.4), new Garment("insulated jacket", 0.9), new Garment("hat and gloves", 0.1)]);

    /// <summary>A messenger.</summary>
    public static Device Messenger { get; } = Device.Messenger("messenger", 1250);

    /// <summary>A phone.</summary>
    public static Device Phone { get; } = Device.Phone("phone", 4000);

    /// <summary>A head lamp of three modes.</summary>
    /// <param name="mah">Capacity [mAh].</param>
    /// <returns>The lamp.</returns>
    public static Device HeadLamp(double mah = 3200) => new("head lamp", DeviceKind.HeadLamp, CellPack.LithiumIon(mah),
        DeviceMode.Lit("low", new LampOutput(150, 2500), 1.5), DeviceMode.Lit("trail", new LampOutput(400, 6000), 4.5), DeviceMode.Lit("high", new LampOutput(800, 12000), 9));

    /// <summary>A bar lamp of two modes.</summary>
    /// <param name="mah">Capacity [mAh].</param>
    /// <returns>The lamp.</returns>
    public static Device BarLamp(double mah = 5000) => new("bar lamp", DeviceKind.BarLamp, CellPack.LithiumIon(mah),
        DeviceMode.Lit("low", new LampOutput(300, 6000), 3), DeviceMode.Lit("trail", new LampOutput(700, 14000), 7));
}
