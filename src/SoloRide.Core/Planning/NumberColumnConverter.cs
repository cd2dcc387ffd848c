using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace SoloRide.Planning;

/// <summary>A column of numbers on few lines; what is not known (NaN) is null. Numbers are written so that reading gives the same bits.</summary>
internal sealed class NumberColumnConverter : JsonConverter<double[]>
{
    private const int LineWidth = 120;

    public override double[] Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        var values = new List<double>();
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            values.Add(reader.TokenType == JsonTokenType.Null ? double.NaN : reader.GetDouble());
        }

        return [.. values];
    }

    public override void Write(Utf8JsonWriter writer, double[] value, JsonSerializerOptions options)
    {
        var b = new StringBuilder("[");
        int line = 0;
        for (int i = 0; i < value.Length; i++)
        {
            string text = double.IsNaN(value[i]) ? "null" : value[i].ToString("R", CultureInfo.InvariantCulture);
            if (i > 0)
            {
                b.Append(',');
                line++;
                if (line + text.Length > LineWidth)
                {
                    b.Append('\n');
                    line = 0;
                }
            }

            b.Append(text);
            line += text.Length;
        }

        writer.WriteRawValue(b.Append(']').ToString(), skipInputValidation: true);
    }
}
