using Microsoft.AspNetCore.Mvc.ModelBinding;
using NodaTime;
using NodaTime.Text;

namespace TeamCircle.Web.Ui;

/// <summary>Reads a time as browsers send it and as people type it: 09:30, 9:30, 09:30:00, 9:30 am, 2 pm.</summary>
public sealed class LocalTimeBinder : IModelBinder, IModelBinderProvider
{
    private static readonly IPattern<LocalTime> Pattern = new CompositePatternBuilder<LocalTime>
    {
        { LocalTimePattern.CreateWithInvariantCulture("H:mm"), _ => true },
        { LocalTimePattern.CreateWithInvariantCulture("H:mm:ss"), _ => true },
        { LocalTimePattern.CreateWithInvariantCulture("h:mm tt"), _ => true },
        { LocalTimePattern.CreateWithInvariantCulture("h tt"), _ => true },
    }.Build();

    public IModelBinder? GetBinder(ModelBinderProviderContext context) =>
        context.Metadata.UnderlyingOrModelType == typeof(LocalTime) ? this : null;

    public Task BindModelAsync(ModelBindingContext context)
    {
        var sent = context.ValueProvider.GetValue(context.ModelName);
        if (sent == ValueProviderResult.None)
            return Task.CompletedTask;
        context.ModelState.SetModelValue(context.ModelName, sent);
        var typed = sent.FirstValue?.Trim().ToUpperInvariant() ?? "";
        if (typed.Length == 0 && context.ModelMetadata.IsReferenceOrNullableType)
            context.Result = ModelBindingResult.Success(null);
        else if (Pattern.Parse(typed).TryGetValue(default, out var time))
            context.Result = ModelBindingResult.Success(time);
        else
            context.ModelState.TryAddModelError(context.ModelName, "Give the time as hours and minutes, such as 9:30 or 14:05.");
        return Task.CompletedTask;
    }
}
