using CommonGround.Ecology.Sites;

namespace CommonGround.Ecology.Tests.Sites;

public class GreatCircleTests
{
    // The metre was once a ten-millionth of the quarter meridian; on the mean sphere a quarter of a great circle is πR/2.
    [Fact(DisplayName = "A quarter of the way round is πR/2, a degree of latitude πR/180 (spherical geometry)")]
    public void Distances_on_the_sphere_are_those_of_geometry()
    {
        GreatCircle.Metres(0, 0, 0, 90).ShouldBe(Math.PI / 2 * GreatCircle.EarthRadiusMetres, 1e-6);
        GreatCircle.Metres(-90, 12, 90, -77).ShouldBe(Math.PI * GreatCircle.EarthRadiusMetres, 1e-6);
        GreatCircle.Metres(40, -90, 41, -90).ShouldBe(Math.PI / 180 * GreatCircle.EarthRadiusMetres, 1e-6);
        GreatCircle.Metres(60, 179.9, 60, -179.9).ShouldBe(GreatCircle.Metres(60, 0, 60, 0.2), 1e-6);
        GreatCircle.Metres(41.5, -90.2, 41.5, -90.2).ShouldBe(0);
    }

    [Fact]
    public void A_latitude_beyond_the_pole_is_refused() => Should.Throw<ArgumentOutOfRangeException>(() => GreatCircle.Metres(91, 0, 0, 0));
}
