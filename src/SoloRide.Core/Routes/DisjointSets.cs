namespace SoloRide.Routes;

/// <summary>Sets of numbers that are joined; which are together does not depend on the order of joining.</summary>
internal sealed class DisjointSets
{
    private readonly int[] _up;

    public DisjointSets(int count)
    {
        _up = new int[count];
        for (int i = 0; i < count; i++)
        {
            _up[i] = i;
        }
    }

    public int Root(int x)
    {
        while (_up[x] != x)
        {
            _up[x] = _up[_up[x]];
            x = _up[x];
        }

        return x;
    }

    /// <summary>The lower root stays.</summary>
    public void Join(int a, int b)
    {
        a = Root(a);
        b = Root(b);
        if (a != b)
        {
            _up[Math.Max(a, b)] = Math.Min(a, b);
        }
    }
}
