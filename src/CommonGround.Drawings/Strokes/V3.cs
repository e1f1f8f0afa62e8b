namespace CommonGround.Drawings.Strokes;

/// <summary>A point or a way of the plant, in centimetres: x right, y up, z towards the reader.</summary>
internal readonly record struct V3(double X, double Y, double Z)
{
    public static readonly V3 Up = new(0, 1, 0);

    public double Length => Math.Sqrt((X * X) + (Y * Y) + (Z * Z));

    public static V3 operator +(V3 a, V3 b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    public static V3 operator -(V3 a, V3 b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    public static V3 operator *(V3 a, double k) => new(a.X * k, a.Y * k, a.Z * k);

    /// <summary>A way of length 1 from two angles in radians.</summary>
    public static V3 Polar(double azimuth, double elevation) =>
        new(Math.Sin(azimuth) * Math.Cos(elevation), Math.Sin(elevation), Math.Cos(azimuth) * Math.Cos(elevation));

    public V3 Unit()
    {
        var length = Length;
        return length < 1e-9 ? new(0, 1, 0) : this * (1 / length);
    }

    public V3 Cross(V3 b) => new((Y * b.Z) - (Z * b.Y), (Z * b.X) - (X * b.Z), (X * b.Y) - (Y * b.X));
}
