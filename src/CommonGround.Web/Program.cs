var app = WebApplication.CreateBuilder(args).Build();
await app.RunAsync();

public partial class Program;
