using System.Buffers;

namespace SoloRide.Routes;

/// <summary>Gathers points in blocks from a pool, so that reading allocates little more than the points themselves.</summary>
internal sealed class RouteColumnsBuilder
{
    private const int BlockSize = 8192;
    private readonly List<(double[] Lat, double[] Lon, double[] Ele, long[] Ticks)> _blocks = [];
    private (double[] Lat, double[] Lon, double[] Ele, long[] Ticks) _block;
    private int _used = BlockSize;
    private bool _anyElevation, _anyTime;

    public int Count { get; private set; }

    public void Add(double latDeg, double lonDeg, double elevationM, long utcTicks)
    {
        if (_used == BlockSize)
        {
            _block = (ArrayPool<double>.Shared.Rent(BlockSize), ArrayPool<double>.Shared.Rent(BlockSize), ArrayPool<double>.Shared.Rent(BlockSize), ArrayPool<long>.Shared.Rent(BlockSize));
            _blocks.Add(_block);
            _used = 0;
        }

        int i = _used++;
        _block.Lat[i] = latDeg;
        _block.Lon[i] = lonDeg;
        _block.Ele[i] = elevationM;
        _block.Ticks[i] = utcTicks;
        _anyElevation |= !double.IsNaN(elevationM);
        _anyTime |= utcTicks != RouteColumns.NoTime;
        Count++;
    }

    /// <summary>Sets the time of a point added before.</summary>
    public void SetTime(int index, long utcTicks)
    {
        _blocks[index / BlockSize].Ticks[index % BlockSize] = utcTicks;
        _anyTime |= utcTicks != RouteColumns.NoTime;
    }

    /// <summary>Makes the columns and gives the blocks back.</summary>
    public RouteColumns Build()
    {
        double[] lat = GC.AllocateUninitializedArray<double>(Count), lon = GC.AllocateUninitializedArray<double>(Count);
        double[]? ele = _anyElevation ? GC.AllocateUninitializedArray<double>(Count) : null;
        long[]? ticks = _anyTime ? GC.AllocateUninitializedArray<long>(Count) : null;
        for (int b = 0, at = 0; b < _blocks.Count; b++, at += BlockSize)
        {
            int n = Math.Min(BlockSize, Count - at);
            _blocks[b].Lat.AsSpan(0, n).CopyTo(lat.AsSpan(at));
            _blocks[b].Lon.AsSpan(0, n).CopyTo(lon.AsSpan(at));
            if (ele is not null)
            {
                _blocks[b].Ele.AsSpan(0, n).CopyTo(ele.AsSpan(at));
            }

            if (ticks is not null)
            {
                _blocks[b].Ticks.AsSpan(0, n).CopyTo(ticks.AsSpan(at));
            }
        }

        Release();
        return new RouteColumns(lat, lon, ele, ticks);
    }

    public void Release()
    {
        foreach ((double[] lat, double[] lon, double[] ele, long[] ticks) in _blocks)
        {
            ArrayPool<double>.Shared.Return(lat);
            ArrayPool<double>.Shared.Return(lon);
            ArrayPool<double>.Shared.Return(ele);
            ArrayPool<long>.Shared.Return(ticks);
        }

        _blocks.Clear();
        _used = BlockSize;
    }
}
