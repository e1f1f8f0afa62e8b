using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.More;

/// <summary>Stores the group's rules; every figure follows at once.</summary>
public sealed class SaveRules(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood)
{
    public async Task<IReadOnlyList<Problem>> SaveAsync(GroupRules rules, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(by);
        if (!by.MayOrganise)
        {
            return [new("", "Organisers set the group’s rules.")];
        }

        var problems = rules.Check();
        if (problems.Count > 0)
        {
            return problems;
        }

        var saved = await database.WriteAsync(
            async db =>
            {
                var group = await db.Neighbourhoods.SingleAsync(n => n.Id == neighbourhood.Id, cancel);
                group.Settings = rules.Write();
                return by.Note("set the group’s rules");
            }, cancel);

        return saved.Problems;
    }
}
