using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CommonGround.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class GroupPlace : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<double>(
                name: "ElevationMetres",
                table: "Neighbourhoods",
                type: "double precision",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "Latitude",
                table: "Neighbourhoods",
                type: "double precision",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "Longitude",
                table: "Neighbourhoods",
                type: "double precision",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "PlaceName",
                table: "Neighbourhoods",
                type: "character varying(200)",
                maxLength: 200,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "RegionalTable",
                table: "Neighbourhoods",
                type: "character varying(64)",
                maxLength: 64,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "State",
                table: "Neighbourhoods",
                type: "character varying(2)",
                maxLength: 2,
                nullable: false,
                defaultValue: "");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "ElevationMetres",
                table: "Neighbourhoods");

            migrationBuilder.DropColumn(
                name: "Latitude",
                table: "Neighbourhoods");

            migrationBuilder.DropColumn(
                name: "Longitude",
                table: "Neighbourhoods");

            migrationBuilder.DropColumn(
                name: "PlaceName",
                table: "Neighbourhoods");

            migrationBuilder.DropColumn(
                name: "RegionalTable",
                table: "Neighbourhoods");

            migrationBuilder.DropColumn(
                name: "State",
                table: "Neighbourhoods");
        }
    }
}
