using System.Globalization;
using System.Text;
using Groundstation.Io;
using Groundstation.Io.PlanFile;

namespace Groundstation.Console.Commands;

/// <summary>
/// Makes a plan by asking: one question a line, the default in brackets, a blank answer takes it. Every answer is
/// checked by the very reader of plans. Answers may be piped in; then a wrong one ends it.
/// </summary>
/// <param name="input">Where answers come from.</param>
/// <param name="output">Where questions go.</param>
/// <param name="piped">True when nobody can correct an answer.</param>
internal sealed class PlanQuestions(TextReader input, TextWriter output, bool piped)
{
    private readonly StringBuilder _plan = new("# Plan written by: groundstation plan --new\n");
    private string _section = "";
    private bool _customary;

    /// <summary>Asks, and returns the plan's text.</summary>
    /// <exception cref="UserErrorException">A piped answer is wrong.</exception>
    public string Ask()
    {
        output.Write("A new plan. A blank line takes what stands in [brackets]; [-] leaves the matter open.\n");
        _customary = Choice("Units: metric or customary", "metric", "metric", "customary") == "customary";
        Text("flight.name", "Name of the flight", "Flight 1");
        Place();
        Number("launch.height", "Height of the launch site above sea level", "m", "0", "ft", "0");
        Moment("launch.time_utc", "Launch time, UTC, such as 2026-06-21T09:30Z");
        Text("launch.place", "Launch place in words", "-");
        Number("landing.ground", "Height of the ground where it lands", "m", "-", "ft", "-");
        Number("balloon.mass", "Mass of the empty balloon", "g", "1200", "oz", "42");
        if (_section == "balloon") Fill();
        Number("payload.boxes", "Mass of the boxes with all in them", "kg", "1.2", "lb", "2.6");
        Number("payload.line", "Mass of line, swivels and rings", "g", "50", "oz", "2");
        Number("payload.parachute", "Mass of the parachute", "g", "150", "oz", "5");
        Number("payload.flags", "Mass of flags and radar reflector", "g", "50", "oz", "2");
        Number("payload.smallest_face", "Area of the heaviest box's smallest face, for the "
            + "rules", "cm2", "-", "in2", "-");
        Number("payload.line_break", "Force that parts the line, for the rules", "n", "-", "lbf", "-");
        Choose("parachute.shape", "Parachute's shape: flat circular, hemispherical, cross …", "flat circular");
        Number("parachute.diameter", "Its nominal diameter", "m", "1.2", "ft", "4");
        Number("tracker.altitude_limit", "Altitude limit of the tracker's receiver", "m", "-", "ft", "-");
        if (_plan.ToString().Contains("\n[fill]\n", StringComparison.Ordinal)) Cylinder();
        Text("notice.operator", "Who launches", "-");
        Text("notice.contact", "How they are reached during the flight", "-");
        Text("notice.colours", "Colours of balloon, parachute and boxes", "-");
        Raw("display.units", _customary ? "\"customary\"" : "\"metric\"");
        return _plan.ToString();
    }

    private void Fill()
    {
        Number("balloon.burst_diameter", "Its burst diameter, as its maker tells", "m", "-", "ft", "-");
        Raw("fill.gas", "\"" + Choice("Gas: helium or hydrogen", "helium", "helium", "hydrogen") + "\"");
        Number("fill.purity", "Its purity as a share, 0.99 for 99 %", "", "1", "", "1");
        Number("fill.site_pressure", "Air pressure at the site itself, not reduced to sea "
            + "level", "hpa", "-", "inhg", "-");
        Number("fill.site_temperature", "Air temperature at the site", "c", "-", "f", "-");
        Wanted();
    }

    /// <summary>Size and pressure go together.</summary>
    private void Cylinder()
    {
        (string size, string pressure) = _customary ? ("ft3", "psi") : ("l", "bar");
        while (true)
        {
            string inner = Line($"Inner volume of one gas cylinder, {Said(size)}", "-");
            if (inner == "-") return;
            string gauge = Line($"Pressure on its gauge, {pressure}", _customary ? "2400" : "200");
            if (Figure(inner, size) is { } volume && Figure(gauge, pressure) is { } filled
                && Try(($"cylinder.size_{size}", volume), ($"cylinder.pressure_{pressure}", filled))) break;
        }

        Number("cylinder.count", "How many cylinders", "", "1", "", "1");
        Number("cylinder.flow", "Flow through the regulator, a minute", "lpm", "-", "ft3pm", "-");
    }

    private void Place()
    {
        while (true)
        {
            string answer = Line("Launch place, latitude and longitude in degrees, such as 48.25 -30.5", "-");
            if (answer == "-") return;
            string[] words = answer.Split([',', ' '], StringSplitOptions.RemoveEmptyEntries);
            if (words.Length != 2) Complain("two numbers, latitude and longitude, south and west negative");
            else if (Figure(words[0], "") is { } latitude && Figure(words[1], "") is { } longitude
                && Try(("launch.latitude_deg", latitude), ("launch.longitude_deg", longitude))) return;
        }
    }

    private void Wanted()
    {
        switch (Choice("What is wanted: rate (of ascent), lift (free), height (of burst), gas (so much)", "rate",
            "rate", "lift", "height", "gas"))
        {
            case "rate": Number("fill.ascent_rate", "Ascent rate", "mps", "5", "ftpmin", "1000"); break;
            case "lift": Number("fill.free_lift", "Free lift", "g", "1000", "oz", "35"); break;
            case "height": Number("fill.burst_height", "Burst height", "m", "30000", "ft", "100000"); break;
            default: Number("fill.gas", "Gas that there is, as volume at the site", "m3", "3.5", "ft3", "120"); break;
        }
    }

    private void Number(string name, string question, string metric, string usual, string customary,
        string usualCustomary)
    {
        string unit = _customary ? customary : metric;
        string said = unit.Length == 0 ? question : $"{question}, {Said(unit)}";
        while (true)
        {
            string answer = Line(said, _customary ? usualCustomary : usual);
            if (answer == "-") return;
            if (Figure(answer, unit) is { } figure && Try((unit.Length == 0 ? name : $"{name}_{unit}", figure)))
                return;
        }
    }

    /// <summary>A number as the plan's file writes it, without the unit that the question names already.</summary>
    private string? Figure(string answer, string unit)
    {
        string alone = answer.EndsWith(Said(unit), StringComparison.Ordinal) ? answer[..^Said(unit).Length] : answer;
        if (double.TryParse(alone, NumberStyles.Float, CultureInfo.InvariantCulture, out double value))
            return value.ToString(CultureInfo.InvariantCulture);
        Complain($"{answer}: a number alone, decimals behind a point");
        return null;
    }

    private void Text(string name, string question, string usual) =>
        Until(name, question, usual, answer => "\"" + answer.Replace("\\", "\\\\").Replace("\"", "\\\"") + "\"");

    private void Choose(string name, string question, string usual) =>
        Until(name, question, usual, answer => $"\"{answer.Replace("\\", "").Replace("\"", "")}\"");

    private void Moment(string name, string question) => Until(name, question, "-", answer => $"\"{answer}\"");

    private void Until(string name, string question, string usual, Func<string, string> written)
    {
        while (true)
        {
            string answer = Line(question, usual);
            if (answer == "-" || Try((name, written(answer)))) return;
        }
    }

    private string Choice(string question, string usual, params string[] words)
    {
        while (true)
        {
            string answer = Line(question, usual).ToLowerInvariant();
            // A beginning that fits one word only is that word.
            string[] fits = [.. words.Where(w => w.StartsWith(answer, StringComparison.Ordinal))];
            if (fits.Length == 1) return fits[0];
            Complain("one of " + string.Join(", ", words));
        }
    }

    /// <summary>Takes keys when the plan with them is good; else says why not.</summary>
    private bool Try(params (string Name, string Value)[] keys)
    {
        int length = _plan.Length;
        string section = _section;
        foreach ((string name, string value) in keys) Raw(name, value);
        try
        {
            PlanReader.Parse(_plan.ToString(), "plan");
            return true;
        }
        catch (UserErrorException e)
        {
            (_plan.Length, _section) = (length, section);
            // "plan:12: key = value: what is allowed": the place in a file that is not there yet says nothing.
            Complain(e.Message.Split(": ", 2)[^1]);
            return false;
        }
    }

    private void Raw(string name, string value)
    {
        string[] parts = name.Split('.');
        if (_section != parts[0]) _plan.Append(CultureInfo.InvariantCulture, $"\n[{_section = parts[0]}]\n");
        _plan.Append(CultureInfo.InvariantCulture, $"{parts[1]} = {value}\n");
    }

    private string Line(string question, string usual)
    {
        output.Write($"{question} [{usual}]: ");
        output.Flush();
        string? line = input.ReadLine();
        // Ctrl+D is no blank line: who leaves has not taken forty defaults.
        if (line is null && !piped) throw new UserErrorException("left before the last question; nothing is written");
        string answer = new([.. (line ?? "").Trim().Where(c => !char.IsControl(c))]);
        if (piped) output.Write(answer + "\n");
        return answer.Length > 0 ? answer : usual;
    }

    private void Complain(string why)
    {
        if (piped) throw new UserErrorException(why);
        output.Write($"  not taken: {why}\n");
    }

    private static string Said(string unit) => unit switch
    {
        "c" => "°C",
        "f" => "°F",
        "l" => "litres",
        "n" => "N",
        "hpa" => "hPa",
        "inhg" => "inHg",
        "mps" => "m/s",
        "ftpmin" => "ft/min",
        "lpm" => "litres",
        "ft3pm" or "ft3" => "ft³",
        "m3" => "m³",
        "cm2" => "cm²",
        "in2" => "in²",
        _ => unit,
    };
}
