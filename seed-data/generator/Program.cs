Console.WriteLine("Writes the Quarry Bend files.");
