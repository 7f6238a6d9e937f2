using System.Collections.Concurrent;
using Groundstation.Core.Plan;
using Groundstation.Io.Speech;
using Xunit;

namespace Groundstation.Io.Tests.Speech;

/// <summary>
/// Reading aloud through an external program: a shell script stands in for it, espeak-ng where it is installed.
/// </summary>
public sealed class SpeakerTests : IDisposable
{
    private readonly TempFolder _temp = new();
    private readonly ConcurrentQueue<string> _told = new();

    public void Dispose() => _temp.Dispose();

    [Fact]
    public void Words_go_to_standard_input()
    {
        using Speaker speaker = Fake("cat > said.txt.new; mv said.txt.new said.txt");
        speaker.Say(1, "one zero four Zulu", false);
        Assert.Equal("one zero four Zulu\n", Text("said.txt"));
        Assert.Empty(_told);
    }

    [Fact]
    public void Words_in_an_argument_reach_no_shell()
    {
        const string Words = "a \"quoted\" $(touch harm) `touch harm`; touch harm & 'b' {text}";
        using Speaker speaker = Fake("printf %s \"$2\" > said.txt.new; mv said.txt.new said.txt", "-x", "{text}");
        speaker.Say(1, Words, false);
        Assert.Equal(Words, Text("said.txt"));
        Assert.False(File.Exists(_temp["harm"]));
    }

    [Fact]
    public void While_one_is_read_the_newest_waits_and_the_others_are_dropped_with_a_word()
    {
        using Speaker speaker = Fake("read words; echo $words >> said.txt; while [ ! -e go ]; do sleep 0.05; done");
        speaker.Say(1, "first", false);
        Assert.Equal("first\n", Text("said.txt"));
        speaker.Say(2, "second", false);
        speaker.Say(3, "third", false);
        speaker.Say(4, "fourth", false);
        _temp.Write("go", "");
        Until(() => Text("said.txt").EndsWith("fourth\n", StringComparison.Ordinal));
        Assert.Equal("first\nfourth\n", Text("said.txt"));
        Assert.Equal(["callout 2, 3 was overtaken and not read aloud"], _told);
    }

    [Fact]
    public void A_missing_program_is_told_once_and_again_when_the_operator_asks()
    {
        using Speaker speaker = new(new SpeechSettings(_temp["nothing-here"], []), TimeProvider.System, _told.Enqueue);
        speaker.Say(1, "first", false);
        Until(() => _told.Count == 1);
        speaker.Say(2, "second", false);
        speaker.Say(3, "third", true);
        Until(() => _told.Count == 2);
        Assert.All(_told, line => Assert.Contains("there is no such program", line, StringComparison.Ordinal));
    }

    [Fact]
    public void A_program_that_fails_is_told_with_its_own_words()
    {
        using Speaker speaker = Fake("echo 'no such voice' >&2; exit 3");
        speaker.Say(1, "first", false);
        Until(() => !_told.IsEmpty);
        Assert.Contains("failed (3", _told.First(), StringComparison.Ordinal);
    }

    [Fact]
    public void At_the_end_a_program_that_still_speaks_is_stopped()
    {
        Speaker speaker = Fake("echo $$ > pid.txt.new; mv pid.txt.new pid.txt; exec sleep 300");
        speaker.Say(1, "first", false);
        string pid = Text("pid.txt").Trim();
        speaker.Dispose();
        Until(() => !Directory.Exists("/proc/" + pid)
            || File.ReadAllText($"/proc/{pid}/stat").Contains(") Z", StringComparison.Ordinal));
    }

    [Fact]
    public void Espeak_reads_a_callout_in_twenty_seconds()
    {
        if (!File.Exists("/usr/bin/espeak-ng")) Assert.Skip("needs espeak-ng");
        string wave = _temp["said.wav"];
        // 150 words a minute: the two and a half a second that callouts are made for.
        using Speaker speaker = new(new("espeak-ng", ["-s", "150", "-w", wave, "{text}"]), TimeProvider.System, _told.Enqueue);
        speaker.Say(1, "Chase, Mission Control, one one zero four Zulu. Tracker silent seven minutes. Landing estimate four "
            + "seven decimal one seven seven north, three decimal five one zero east. From launch bearing zero eight one "
            + "true, eight three kilometres. Search within two decimal five kilometres. Confidence fair. Landing in one "
            + "four minutes.", false);
        long last = 0;
        Until(() => File.Exists(wave) && new FileInfo(wave).Length is > 1000 and var now && (now == last || (last = now) < 0));
        // 22 050 samples a second of two bytes. espeak makes long pauses between sentences: a quarter more is allowed.
        Assert.InRange(new FileInfo(wave).Length / 44_100.0, 10, 25);
        Assert.Empty(_told);
    }

    private Speaker Fake(string script, params string[] arguments)
    {
        if (OperatingSystem.IsWindows()) Assert.Skip("needs a Unix shell");
        string file = _temp.Write("speak.sh", $"#!/bin/sh\ncd '{Path.GetDirectoryName(_temp["x"])}'\n{script}\n");
        return new Speaker(new SpeechSettings("/bin/sh", [file, .. arguments]), TimeProvider.System, _told.Enqueue);
    }

    private string Text(string name)
    {
        Until(() => File.Exists(_temp[name]));
        return File.ReadAllText(_temp[name]);
    }

    private static void Until(Func<bool> holds)
    {
        for (int i = 0; i < 1200 && !holds(); i++) Thread.Sleep(25);
        Assert.True(holds(), "nothing came within 30 s");
    }
}
