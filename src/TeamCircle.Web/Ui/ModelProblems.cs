using Microsoft.AspNetCore.Mvc.ModelBinding;
using TeamCircle.Core;

namespace TeamCircle.Web.Ui;

/// <summary>Puts what an operation refused beside the fields that it is about.</summary>
public static class ModelProblems
{
    /// <param name="prefix">The name of the bound property, such as "Input"; empty where fields stand on their own.</param>
    public static void AddProblems(this ModelStateDictionary state, IReadOnlyList<Problem> problems, string prefix)
    {
        foreach (var problem in problems)
            state.AddModelError(problem.Field.Length == 0 || prefix.Length == 0 ? problem.Field : $"{prefix}.{problem.Field}", problem.Message);
    }
}
