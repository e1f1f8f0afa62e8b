using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CommonGround.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class PatchesAndFindings : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_Sightings_NeighbourhoodId_YardId_BedId_TaxonId_ObservedOn",
                table: "Sightings");

            migrationBuilder.AddColumn<string>(
                name: "Finding",
                table: "Sightings",
                type: "character varying(20)",
                maxLength: 20,
                nullable: false,
                defaultValue: "Growing");

            migrationBuilder.AddColumn<string>(
                name: "Patch",
                table: "Sightings",
                type: "character varying(60)",
                maxLength: 60,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "VerifiedBy",
                table: "Sightings",
                type: "character varying(200)",
                maxLength: 200,
                nullable: false,
                defaultValue: "");

            migrationBuilder.CreateIndex(
                name: "IX_Sightings_NeighbourhoodId_YardId_BedId_TaxonId_Patch_Observ~",
                table: "Sightings",
                columns: new[] { "NeighbourhoodId", "YardId", "BedId", "TaxonId", "Patch", "ObservedOn" },
                unique: true);

            migrationBuilder.AddCheckConstraint(
                name: "CK_Sightings_Finding",
                table: "Sightings",
                sql: "\"Finding\" = 'Growing' OR \"CoverSquareMetres\" = 0");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_Sightings_NeighbourhoodId_YardId_BedId_TaxonId_Patch_Observ~",
                table: "Sightings");

            migrationBuilder.DropCheckConstraint(
                name: "CK_Sightings_Finding",
                table: "Sightings");

            migrationBuilder.DropColumn(
                name: "Finding",
                table: "Sightings");

            migrationBuilder.DropColumn(
                name: "Patch",
                table: "Sightings");

            migrationBuilder.DropColumn(
                name: "VerifiedBy",
                table: "Sightings");

            migrationBuilder.CreateIndex(
                name: "IX_Sightings_NeighbourhoodId_YardId_BedId_TaxonId_ObservedOn",
                table: "Sightings",
                columns: new[] { "NeighbourhoodId", "YardId", "BedId", "TaxonId", "ObservedOn" },
                unique: true);
        }
    }
}
