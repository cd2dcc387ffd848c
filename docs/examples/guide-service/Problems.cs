using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc;
using SoloRide;
using SoloRide.Planning;

namespace GuideService;

/// <summary>One field of a body is not right.</summary>
internal sealed class FieldException : Exception
{
    public FieldException(string field, string message, Exception? inner = null)
        : base(message, inner) => Field = field;

    public FieldException()
    {
    }

    public FieldException(string message)
        : base(message)
    {
    }

    public FieldException(string message, Exception innerException)
        : base(message, innerException)
    {
    }

    /// <summary>The path of the field, such as <c>$.rider.massKg</c>.</summary>
    public string Field { get; } = "$";
}

/// <summary>Every refusal is a problem document (RFC 9457) with the library's own words.</summary>
internal static class Problems
{
    public static Task OfExceptionAsync(HttpContext http)
    {
        Exception? e = http.Features.Get<IExceptionHandlerFeature>()?.Error;
        return e switch
        {
            FieldException f => WriteAsync(http, StatusCodes.Status400BadRequest, "The body cannot be used.", f.Message, f.Field),
            // Parts of a body that fit their ranges and not each other.
            ArgumentException a => WriteAsync(http, StatusCodes.Status400BadRequest, "The body cannot be used.", Plain(a), "$"),
            InputFormatException i => WriteAsync(http, StatusCodes.Status400BadRequest, "The body cannot be used.", i.Message, "$"),
            InvalidOperationException o when o.TargetSite?.DeclaringType?.Assembly == typeof(RidePlan).Assembly => WriteAsync(http, StatusCodes.Status422UnprocessableEntity, "There is no such output for this plan.", o.Message, null),
            BadHttpRequestException b => WriteAsync(http, b.StatusCode, "The call cannot be used.", b.Message, b.StatusCode switch { StatusCodes.Status415UnsupportedMediaType => "Content-Type", StatusCodes.Status413PayloadTooLarge => "$", _ => null }),
            OperationCanceledException => TimeUpAsync(http),
            _ => FailedAsync(http, e),
        };
    }

    /// <summary>The library's message without the name that its code gives the field.</summary>
    public static string Plain(ArgumentException e)
    {
        int end = e.Message.IndexOf(" (Parameter '", StringComparison.Ordinal);
        return end > 0 ? e.Message[..end] : e.Message;
    }

    /// <summary>Words for a refusal that the framework makes before a body is read.</summary>
    public static string OfStatus(int status, HttpRequest call) => status switch
    {
        StatusCodes.Status404NotFound => $"There is nothing at '{call.Path}'; the paths stand in /openapi/v1.json.",
        StatusCodes.Status405MethodNotAllowed => $"'{call.Path}' does not know {call.Method}.",
        StatusCodes.Status415UnsupportedMediaType => "The body must be application/json.",
        _ => "The call cannot be used.",
    };

    // The log names the kind of failure alone: its message could quote the body.
    private static Task FailedAsync(HttpContext http, Exception? e)
    {
        Failed(http.RequestServices.GetRequiredService<ILoggerFactory>().CreateLogger("GuideService"), e?.GetType().Name ?? "unknown", null);
        return WriteAsync(http, StatusCodes.Status500InternalServerError, "The service failed.", "Nothing was kept. Do not wait for this service if the plan is needed now.", null);
    }

    private static readonly Action<ILogger, string, Exception?> Failed = LoggerMessage.Define<string>(LogLevel.Error, new EventId(1), "A call failed: {Kind}");

    public static Task TimeUpAsync(HttpContext http)
        => WriteAsync(http, StatusCodes.Status503ServiceUnavailable, "The time for this call is up.", "Ask for fewer samples or a shorter route, or try again later.", null, 30);

    public static Task WriteAsync(HttpContext http, int status, string title, string detail, string? field, int? retryAfterS = null)
    {
        if (http.Response.HasStarted)
        {
            http.Abort(); // half a batch is out: cutting the stream tells the reader that it is not whole
            return Task.CompletedTask;
        }

        http.Response.StatusCode = status;
        if (retryAfterS is { } s)
        {
            http.Response.Headers.RetryAfter = s.ToString(System.Globalization.CultureInfo.InvariantCulture);
        }

        var problem = new ProblemDetails { Status = status, Title = title, Detail = detail };
        if (field is { Length: > 0 })
        {
            problem.Extensions["field"] = field;
        }

        return http.RequestServices.GetRequiredService<IProblemDetailsService>().WriteAsync(new ProblemDetailsContext { HttpContext = http, ProblemDetails = problem }).AsTask();
    }
}
