using CommonGround.Interchange.GeoJson;

namespace CommonGround.Interchange.Tests.GeoJson;

public class MiddlePointTests
{
    private static void ShouldLieAt(GeoPoint point, double latitude, double longitude)
    {
        point.Latitude.ShouldBe(latitude, 1e-9);
        point.Longitude.ShouldBe(longitude, 1e-9);
    }

    [Fact]
    public void A_line_on_the_equator_is_halved_by_its_length_not_by_its_corners() =>
        ShouldLieAt(MiddlePoint.Of(GeoShape.Line([new(0, 0), new(0, 1), new(0, 1), new(0, 4)])), 0, 2);

    [Fact]
    public void The_middle_of_a_great_circle_lies_north_of_its_ends() =>
        // Both ends at 45° N, 90° apart: by spherical trigonometry tan φ = tan 45° / cos 45°.
        ShouldLieAt(MiddlePoint.Of(GeoShape.Line([new(45, 0), new(45, 90)])), Math.Atan(Math.Sqrt(2)) * 180 / Math.PI, 45);

    [Fact]
    public void A_line_across_the_antimeridian_has_its_middle_there() =>
        Math.Abs(MiddlePoint.Of(GeoShape.Line([new(0, 179), new(0, -179)])).Longitude).ShouldBe(180, 1e-9);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void The_square_of_appendix_a3_of_rfc_7946_has_its_centroid_in_the_middle_whichever_way_it_winds(bool reversed)
    {
        GeoPoint[] ring = [new(0, 100), new(0, 101), new(1, 101), new(1, 100), new(0, 100)];
        ShouldLieAt(MiddlePoint.Of(GeoShape.Polygon([reversed ? [.. ring.Reverse()] : ring])), 0.5, 100.5);
    }

    [Fact]
    public void A_hole_pushes_the_centroid_away()
    {
        // A 4 × 2 rectangle without the 2 × 2 square at its east end leaves the square at its west end.
        GeoPoint[] outline = [new(0, 0), new(0, 4), new(2, 4), new(2, 0), new(0, 0)];
        GeoPoint[] hole = [new(0, 2), new(0, 4), new(2, 4), new(2, 2), new(0, 2)];
        ShouldLieAt(MiddlePoint.Of(GeoShape.Polygon([outline, hole])), 1, 1);
    }

    [Fact]
    public void The_centroid_of_a_triangle_is_the_mean_of_its_corners() =>
        ShouldLieAt(MiddlePoint.Of(GeoShape.Polygon([[new(0, 0), new(0, 3), new(3, 0), new(0, 0)]])), 1, 1);

    [Fact]
    public void An_outline_without_area_is_treated_as_a_line() =>
        ShouldLieAt(MiddlePoint.Of(GeoShape.Polygon([[new(0, 0), new(0, 2), new(0, 4), new(0, 0)]])), 0, 4);

    [Fact]
    public void A_point_is_its_own_middle() => ShouldLieAt(MiddlePoint.Of(GeoShape.Point(new(41.9, -88.3))), 41.9, -88.3);
}
