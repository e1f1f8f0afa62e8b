namespace CommonGround.Drawings.Strokes;

/// <summary>A point or a way on the paper, in pixels: x right, y down.</summary>
public readonly record struct P2(double X, double Y)
{
    public double Length => Math.Sqrt((X * X) + (Y * Y));

    /// <summary>A quarter turn anticlockwise.</summary>
    public P2 Left => new(Y, -X);

    public static P2 operator +(P2 a, P2 b) => new(a.X + b.X, a.Y + b.Y);

    public static P2 operator -(P2 a, P2 b) => new(a.X - b.X, a.Y - b.Y);

    public static P2 operator *(P2 a, double k) => new(a.X * k, a.Y * k);

    /// <summary>A way of length 1; 0 is up, clockwise, radians.</summary>
    public static P2 Dir(double angle) => new(Math.Sin(angle), -Math.Cos(angle));

    /// <summary>The same way with length 1; up when it has none.</summary>
    public P2 Unit()
    {
        var length = Length;
        return length < 1e-9 ? new(0, -1) : this * (1 / length);
    }
}
