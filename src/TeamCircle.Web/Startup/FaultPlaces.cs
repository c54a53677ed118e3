using System.Text;
using Npgsql;
using Serilog.Core;
using Serilog.Events;

namespace TeamCircle.Web.Startup;

/// <summary>Gives an event with an exception the property <c>Fault</c>: types, SQL states and places in the code, no messages.</summary>
internal sealed class FaultPlaces : ILogEventEnricher
{
    public void Enrich(LogEvent logEvent, ILogEventPropertyFactory propertyFactory)
    {
        if (logEvent.Exception is not { } exception)
            return;
        var text = new StringBuilder();
        for (var fault = exception; fault is not null; fault = fault.InnerException)
        {
            text.Append(fault.GetType().FullName);
            if (fault is PostgresException database)
                text.Append(' ').Append(database.SqlState).Append(' ').Append(database.ConstraintName);
            text.AppendLine().AppendLine(fault.StackTrace);
        }
        logEvent.AddPropertyIfAbsent(new LogEventProperty("Fault", new ScalarValue(text.ToString())));
    }
}
