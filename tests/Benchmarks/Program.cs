Console.WriteLine("usage: Benchmarks NAME");
