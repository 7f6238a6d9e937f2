using System.Globalization;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;

namespace Groundstation.Benchmarks;

/// <summary>
/// Mutates the bundled recordings at random and feeds them to the decoder: nothing may throw, and the same bytes must give
/// the same whether they come in one call or cut at random. <c>fuzz-sentences [--bytes N] [--seed S]</c>; without a seed
/// it draws one, and prints it.
/// </summary>
internal static class SentenceFuzz
{
    public static int Run(string[] args)
    {
        long bytes = Argument(args, "--bytes", 10_000_000);
        int seed = (int)Argument(args, "--seed", Environment.TickCount);
        Console.WriteLine($"fuzz-sentences --bytes {bytes} --seed {seed}");
        byte[] corpus = [.. Machine.ReceiverLogs().SelectMany(l => l)];
        var random = new Random(seed);
        long fed = 0;
        var total = new Counter();
        while (fed < bytes)
        {
            byte[] piece = Mutate(corpus, random);
            var whole = new Counter();
            var cut = new Counter();
            bool allow = random.Next(4) == 0;
            Feed(piece, allow, null, ref whole);
            Feed(piece, allow, random, ref cut);
            if (!Same(whole, cut))
            {
                Console.Error.WriteLine($"re-chunking changed the result after {fed} bytes, seed {seed}");
                return 1;
            }

            total.Accepted += whole.Accepted;
            total.Refused += whole.Refused;
            fed += piece.Length;
        }

        Console.WriteLine($"{fed} bytes: {total.Accepted} messages, {total.Refused} rejections, nothing thrown");
        return 0;
    }

    private static bool Same(in Counter a, in Counter b) =>
        a.Accepted == b.Accepted && a.Refused == b.Refused && a.Sum.Equals(b.Sum);

    private static void Feed(byte[] bytes, bool allowNoChecksum, Random? cuts, ref Counter sink)
    {
        var stream = new SentenceStream(new SourceId("radio1"), allowNoChecksum);
        for (int at = 0; at < bytes.Length;)
        {
            int length = cuts is null ? bytes.Length : Math.Min(bytes.Length - at, 1 + cuts.Next(200));
            stream.Push(new Instant(at), bytes.AsSpan(at, length), ref sink);
            at += length;
        }

        stream.Flush(new Instant(bytes.Length), ref sink);
    }

    /// <summary>A stretch of the recordings with a few faults of the kinds that radios and cables make.</summary>
    private static byte[] Mutate(byte[] corpus, Random random)
    {
        int length = 200 + random.Next(8000);
        var piece = corpus.AsSpan(random.Next(corpus.Length - length), length).ToArray().ToList();
        for (int fault = random.Next(40); fault > 0; fault--)
        {
            int at = random.Next(piece.Count);
            switch (random.Next(7))
            {
                case 0: // one bit
                    piece[at] ^= (byte)(1 << random.Next(8));
                    break;
                case 1: // any byte
                    piece[at] = (byte)random.Next(256);
                    break;
                case 2: // bytes lost
                    piece.RemoveRange(at, Math.Min(random.Next(60), piece.Count - at - 1));
                    break;
                case 3: // a byte that means something, where it does not belong
                    piece.Insert(at, "$!*\\,\r\n^\0.-"u8[random.Next(11)]);
                    break;
                case 4: // noise put in
                    for (int n = random.Next(40); n > 0; n--) piece.Insert(at, (byte)random.Next(256));
                    break;
                case 5: // a stretch again, elsewhere
                    piece.InsertRange(at, piece.GetRange(random.Next(at + 1), Math.Min(50, piece.Count - at)));
                    break;
                default: // no line end for long
                    piece.InsertRange(at, Enumerable.Repeat((byte)random.Next(0x20, 0x7F), random.Next(1500)));
                    break;
            }
        }

        return [.. piece];
    }

    private static long Argument(string[] args, string name, long otherwise)
    {
        int at = Array.IndexOf(args, name);
        return at >= 0 && at + 1 < args.Length ? long.Parse(args[at + 1], CultureInfo.InvariantCulture) : otherwise;
    }
}
