using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;
using FsCheck.Xunit;

namespace CommonGround.Interchange.Tests.Walks;

/// <summary>
/// The join of what several people said is that of a join-semilattice: idempotent, commutative, associative. Source of the laws: Shapiro,
/// Preguiça, Baquero and Zawirski (2011), "Conflict-free replicated data types", definition 2.
/// </summary>
public class LookJoinTests
{
    private static readonly DateTime Noon = new(2026, 8, 19, 12, 0, 0, DateTimeKind.Utc);

    [Property(MaxTest = 300)]
    public void The_order_in_which_statements_come_and_how_often_changes_nothing(int seed)
    {
        var random = new Random(seed);
        var all = Statements(random);
        var (said, dispute) = (LookJoin.Said(all), Words(LookJoin.Dispute(all)));
        for (var i = 0; i < 5; i++)
        {
            var shuffled = all.Concat(all.Where(_ => random.Next(3) == 0)).OrderBy(_ => random.Next()).ToList();
            LookJoin.Said(shuffled).ShouldBe(said);
            Words(LookJoin.Dispute(shuffled)).ShouldBe(dispute);
        }
    }

    [Property(MaxTest = 300)]
    public void Joining_two_sets_is_their_union_whatever_came_together(int seed)
    {
        var random = new Random(seed);
        var all = Statements(random);
        var (first, second, third) = (all.Where(_ => random.Next(2) == 0).ToList(), all.Where(_ => random.Next(2) == 0).ToList(),
            all.Where(_ => random.Next(2) == 0).ToList());
        LookJoin.Said([.. first, .. second]).ShouldBe(LookJoin.Said([.. second, .. first]));
        LookJoin.Said([.. first, .. first]).ShouldBe(LookJoin.Said(first));
        LookJoin.Said([.. first.Concat(second), .. third]).ShouldBe(LookJoin.Said([.. first, .. second.Concat(third)]));
    }

    [Fact]
    public void Of_each_field_what_was_said_last_holds_and_what_nobody_said_stays_open()
    {
        var said = LookJoin.Said([Say(1, 1, new() { Finding = Finding.Growing, GrowthStage = 5 }), Say(2, 2, new() { GrowthStage = 6 }),
            Say(2, 3, new() { CoverSquareMetres = 1.5 })]);
        said.ShouldBe(new LookSaid { Finding = Finding.Growing, GrowthStage = 6, CoverSquareMetres = 1.5 });
    }

    [Fact]
    public void What_was_taken_back_says_nothing()
    {
        var first = Say(1, 1, new() { Finding = Finding.NotFound });
        LookJoin.Said([first, Say(1, 2, new() { Finding = Finding.Growing }) with { Over = [first.Id] }]).Finding.ShouldBe(Finding.Growing);
        LookJoin.Said([first, Say(1, 2, new()) with { Over = [first.Id] }]).ShouldBe(new LookSaid());
    }

    [Fact]
    public void Two_people_who_differ_stand_side_by_side_until_somebody_chooses()
    {
        var (one, other) = (Say(1, 1, new() { Finding = Finding.Growing, GrowthStage = 6 }),
            Say(2, 2, new() { Finding = Finding.Growing, GrowthStage = 7 }));
        var dispute = LookJoin.Dispute([one, other]).ShouldNotBeNull();
        dispute.Sides.Select(s => (s.Person, s.Said.GrowthStage)).ShouldBe([(1, 6), (2, 7)]);
        LookJoin.Dispute([one, other, Say(1, 3, new() { GrowthStage = 6 }) with { Settles = [one.Id, other.Id] }]).ShouldBeNull();
        LookJoin.Said([one, other, Say(1, 3, new() { GrowthStage = 6 }) with { Settles = [one.Id, other.Id] }]).GrowthStage.ShouldBe(6);
    }

    [Fact]
    public void One_person_with_two_phones_differs_with_nobody() =>
        LookJoin.Dispute([Say(1, 1, new() { GrowthStage = 6 }), Say(1, 2, new() { GrowthStage = 7 })]).ShouldBeNull();

    [Fact]
    public void Remarks_of_two_people_are_both_kept_and_the_desks_takes_their_place()
    {
        var (one, other) = (Say(1, 1, new() { Remark = "aphids" }), Say(2, 2, new() { Remark = "cut back" }));
        LookJoin.Said([other, one]).Remark.ShouldBe("aphids; cut back");
        LookJoin.Said([other, one, Say(1, 3, new() { Remark = "aphids gone" })]).Remark.ShouldBe("cut back; aphids gone");
        LookJoin.Said([other, one, Say(3, 3, new() { Remark = "checked" }) with { AtDesk = true }]).Remark.ShouldBe("checked");
    }

    private static string Words(LookDispute? dispute) => dispute is null ? ""
        : string.Join('|', dispute.Sides.Select(s => $"{s.Person} {s.Said} {string.Join(',', s.Ids)}"));

    private static LookStatement Say(long person, int minute, LookSaid said) =>
        new(Guid.NewGuid(), person, Noon.AddMinutes(minute), said, [], []);

    private static List<LookStatement> Statements(Random random)
    {
        var all = new List<LookStatement>();
        var ids = new byte[16];
        for (var i = 0; i < 1 + random.Next(7); i++)
        {
            random.NextBytes(ids);
            // Few moments, so that some coincide and the number decides.
            all.Add(new(new Guid(ids), random.Next(4) is var person and < 3 ? person : null, Noon.AddMinutes(random.Next(3)), new LookSaid
            {
                Finding = random.Next(3) == 0 ? null : (Finding)random.Next(4),
                CoverSquareMetres = random.Next(2) == 0 ? null : random.Next(1, 4) / 2.0,
                Count = random.Next(3) == 0 ? random.Next(1, 9) : null,
                GrowthStage = random.Next(2) == 0 ? null : random.Next(10),
                NoStage = random.Next(9) == 0,
                Certainty = random.Next(2) == 0 ? null : (Certainty)random.Next(3),
                Qualifier = random.Next(3) == 0 ? "cf." : null,
                Place = random.Next(3) == 0 ? "front" : null,
                Remark = random.Next(2) == 0 ? null : "remark " + random.Next(3),
                SeedCollectedGrams = random.Next(3) == 0 ? random.Next(1, 30) : null,
            }, all.Where(_ => random.Next(6) == 0).Select(s => s.Id).ToList(), all.Where(_ => random.Next(6) == 0).Select(s => s.Id)
                .ToList(), random.Next(5) == 0));
        }

        return all;
    }
}
