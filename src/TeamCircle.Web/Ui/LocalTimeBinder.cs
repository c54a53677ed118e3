using Microsoft.AspNetCore.Mvc.ModelBinding;
using NodaTime;
using TeamCircle.Core.Time;

namespace TeamCircle.Web.Ui;

/// <summary>Reads a time as browsers send it and as people type it (<see cref="TypedTime"/>).</summary>
public sealed class LocalTimeBinder : IModelBinder, IModelBinderProvider
{
    public IModelBinder? GetBinder(ModelBinderProviderContext context) =>
        context.Metadata.UnderlyingOrModelType == typeof(LocalTime) ? this : null;

    public Task BindModelAsync(ModelBindingContext context)
    {
        var sent = context.ValueProvider.GetValue(context.ModelName);
        if (sent == ValueProviderResult.None)
            return Task.CompletedTask;
        context.ModelState.SetModelValue(context.ModelName, sent);
        var typed = sent.FirstValue ?? "";
        if (typed.Trim().Length == 0 && context.ModelMetadata.IsReferenceOrNullableType)
            context.Result = ModelBindingResult.Success(null);
        else if (TypedTime.Read(typed) is { } time)
            context.Result = ModelBindingResult.Success(time);
        else
            context.ModelState.TryAddModelError(context.ModelName, "Give the time as hours and minutes, such as 9:30 or 14:05.");
        return Task.CompletedTask;
    }
}
