using ScottPlot;
using SkiaSharp;

namespace SoloRide.Charts;

/// <summary>A drawing of our own inside a panel, in the order of the panel's series and clipped to its data.</summary>
internal sealed class Painted(Action<SKCanvas> draw) : IPlottable
{
    public bool IsVisible { get; set; } = true;

    public IAxes Axes { get; set; } = new Axes();

    public IEnumerable<LegendItem> LegendItems => [];

    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    public void Render(RenderPack rp)
    {
        rp.Canvas.Save();
        rp.Canvas.ClipRect(new SKRect(rp.DataRect.Left, rp.DataRect.Top, rp.DataRect.Right, rp.DataRect.Bottom));
        draw(rp.Canvas);
        rp.Canvas.Restore();
    }
}
