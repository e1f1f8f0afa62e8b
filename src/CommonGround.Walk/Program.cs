using CommonGround.Walk;
using Microsoft.AspNetCore.Components.WebAssembly.Hosting;

var builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
builder.Services.AddSingleton(TimeProvider.System).AddSingleton<Shelf>().AddSingleton<Outbox>().AddSingleton<Pack>()
    .AddSingleton<WalkSession>();
await builder.Build().RunAsync();
