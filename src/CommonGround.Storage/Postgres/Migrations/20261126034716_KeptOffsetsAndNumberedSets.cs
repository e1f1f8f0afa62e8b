using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CommonGround.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class KeptOffsetsAndNumberedSets : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<double>(
                name: "OffsetEastMetres",
                table: "Yards",
                type: "double precision",
                nullable: false,
                defaultValue: 0.0);

            migrationBuilder.AddColumn<double>(
                name: "OffsetNorthMetres",
                table: "Yards",
                type: "double precision",
                nullable: false,
                defaultValue: 0.0);

            migrationBuilder.AddColumn<long>(
                name: "Number",
                table: "PublishedYards",
                type: "bigint",
                nullable: false,
                defaultValue: 0L);

            // Sets from before are numbered in the order of their rows.
            migrationBuilder.Sql("UPDATE \"PublishedYards\" SET \"Number\" = \"Id\"");

            migrationBuilder.CreateIndex(
                name: "IX_PublishedYards_NeighbourhoodId_Number",
                table: "PublishedYards",
                columns: new[] { "NeighbourhoodId", "Number" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_PublishedYards_NeighbourhoodId_Number",
                table: "PublishedYards");

            migrationBuilder.DropColumn(
                name: "OffsetEastMetres",
                table: "Yards");

            migrationBuilder.DropColumn(
                name: "OffsetNorthMetres",
                table: "Yards");

            migrationBuilder.DropColumn(
                name: "Number",
                table: "PublishedYards");
        }
    }
}
