using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;

namespace CommonGround.Ecology.Tests.Invasives;

public class CaseCourseTests
{
    /// <summary>Garlic mustard: pulled April 1–June 15 (4a–6a), again September 16–November 30 (9b–11b); half-life 8.5 years (Redwood,
    /// Matlack
    /// and Huebner 2018, Weed Science 66); ten years of follow-up chosen from managers' texts (at least five, perhaps more than
    /// ten).</summary>
    private static readonly UnwantedTaxon s_mustard = new("Alliaria petiolata", "garlic mustard", false,
        [Method(ControlMethod.Pull, new BloomWindow(6, 10), new BloomWindow(17, 21)),
            Method(ControlMethod.Cut, new BloomWindow(7, 9))], [],
        new(new(0.5, 1.8, 50), "", new(0.3, 0.8, 1.5), new(7, 8.5, 10.8), ""),
        new("", "", "", "", "", new BloomWindow(7, 10), new BloomWindow(11, 15)));

    private static ControlAdvice Method(ControlMethod method, params BloomWindow[] windows) => new(method, Advice.Yes, windows, 11, "", "",
        null, "", 10, "", "", new(0.1, 0.3, 0.8), "", "", "", "");

    private static CaseStanding On(DateOnly today, CaseLook[] looks, DateOnly[]? treatments = null, (DateOnly, DateOnly)? moved = null,
        int daysLater = 0) => CaseCourse.Of(new(looks, treatments ?? [], moved, false, daysLater), s_mustard, today);

    [Fact]
    public void A_plant_seen_in_its_window_is_due_at_once_and_a_treatment_uses_the_window_up()
    {
        var seen = new CaseLook(new(2026, 5, 2), 4);
        var due = On(new(2026, 5, 3), [seen]);
        (due.State, due.DueFrom, due.DueTo, due.IsOverdue).ShouldBe((CaseState.Open, new DateOnly(2026, 5, 2), new DateOnly(2026, 6, 15),
            false));
        due.Methods.ShouldBe([ControlMethod.Pull, ControlMethod.Cut]);
        // Pulled in May: the spring is used up, the rosettes of autumn are next.
        (On(new(2026, 5, 20), [seen], [new(2026, 5, 10)])).DueFrom.ShouldBe(new DateOnly(2026, 9, 16));
        // Nothing was done in spring: that stays said, and the next chance is shown.
        var missed = On(new(2026, 8, 19), [seen]);
        (missed.OverdueSince, missed.DueFrom, missed.DueTo).ShouldBe((new DateOnly(2026, 6, 15), new DateOnly(2026, 9, 16),
            new DateOnly(2026, 11, 30)));
    }

    [Fact]
    public void Seen_between_windows_it_is_due_when_the_next_one_opens_and_the_warmth_of_the_year_moves_it()
    {
        var seen = new CaseLook(new(2026, 7, 4), 4);
        On(new(2026, 7, 5), [seen]).DueFrom.ShouldBe(new DateOnly(2026, 9, 16));
        On(new(2026, 7, 5), [seen], daysLater: 6).DueFrom.ShouldBe(new DateOnly(2026, 9, 22));
    }

    [Fact]
    public void Not_found_it_rests_on_a_look_a_year_until_the_seed_is_gone()
    {
        CaseLook[] looks = [new(new(2026, 5, 2), 4), new(new(2027, 5, 2), 0)];
        var resting = On(new(2027, 6, 1), looks);
        (resting.State, resting.DueFrom).ShouldBe((CaseState.Resting, new DateOnly(2028, 4, 16)));
        // ln 0.05 / ln 2^(−1/8.5) = 36.7 years, so 37; managers ten. Both are told.
        (resting.ManagersUntil, resting.SeedUntil).ShouldBe((2036, 2063));
        var missed = On(new(2028, 7, 1), looks);
        (missed.OverdueSince, missed.DueFrom).ShouldBe((new DateOnly(2028, 6, 15), new DateOnly(2029, 4, 16)));
        resting.MayEnd(new(2037, 1, 1)).ShouldBeFalse();
        resting.MayEnd(new(2064, 1, 1)).ShouldBeTrue();
    }

    [Fact]
    public void Put_off_it_is_due_then_until_something_is_recorded_after_that_was_said()
    {
        var seen = new CaseLook(new(2026, 5, 2), 4);
        On(new(2026, 5, 4), [seen], moved: (new(2026, 5, 3), new(2026, 6, 1))).DueFrom.ShouldBe(new DateOnly(2026, 6, 1));
        On(new(2026, 5, 20), [seen, new(new(2026, 5, 18), 3)], moved: (new(2026, 5, 3), new(2026, 6, 1)))
            .DueFrom.ShouldBe(new DateOnly(2026, 5, 18));
    }

    // Amur honeysuckle (seed-data/unwanted/control.csv): pulled to November 30, cut to September 15, herbicide August 16–February 15.
    [Fact]
    public void Each_method_by_hand_has_its_own_last_day_and_a_herbicide_lengthens_none()
    {
        var shrub = s_mustard with
        {
            NameFirst = "a native kind exists",
            Methods = [Method(ControlMethod.Pull, new BloomWindow(5, 21)), Method(ControlMethod.Cut, new BloomWindow(9, 16)),
                Method(ControlMethod.Herbicide, new BloomWindow(15, 2))],
        };
        CaseStanding Of(DateOnly today) => CaseCourse.Of(new([new(new(2026, 8, 19), 4)], [], null, false, 0), shrub, today);
        var due = Of(new(2026, 8, 19));
        (due.DueFrom, due.DueTo, due.NameFirst).ShouldBe((new DateOnly(2026, 8, 19), new DateOnly(2026, 11, 30), "a native kind exists"));
        due.Methods.ShouldBe([ControlMethod.Pull, ControlMethod.Cut]);
        due.Until.ShouldBe([new DateOnly(2026, 11, 30), new(2026, 9, 15)]);
        Of(new(2026, 9, 20)).Methods.ShouldBe([ControlMethod.Pull]);
        // Past November the herbicide's season alone is open: the chance by hand was missed.
        Of(new(2026, 12, 2)).OverdueSince.ShouldBe(new DateOnly(2026, 11, 30));
    }

    [Fact]
    public void A_case_that_never_found_the_plant_is_no_case() =>
        Should.Throw<ArgumentException>(() => On(new(2026, 5, 4), [new(new(2026, 5, 2), 0)]));

    [Fact]
    public void A_window_over_New_Year_belongs_to_the_winter_it_began_in()
    {
        var winter = s_mustard with { Methods = [Method(ControlMethod.Cut, new BloomWindow(21, 3))] };
        var due = CaseCourse.Of(new([new(new(2026, 12, 20), 4)], [], null, false, 0), winter, new(2026, 12, 21));
        (due.DueFrom, due.DueTo).ShouldBe((new DateOnly(2026, 12, 20), new DateOnly(2027, 2, 28)));
    }
}
