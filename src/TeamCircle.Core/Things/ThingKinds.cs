namespace TeamCircle.Core.Things;

/// <summary>What a plan promises beside services (34 CFR 300.105, 300.320(a)(4)).</summary>
public enum ThingKind
{
    Aid,
    Device,

    /// <summary>Materials in a form that the learner can use.</summary>
    AccessibleMaterials,

    /// <summary>Training of the people around the learner.</summary>
    Training,
}

/// <summary>Where a thing is.</summary>
public enum ThingPlace
{
    Home,
    School,

    /// <summary>In somebody's car or bag: out with a provider.</summary>
    WithProvider,
    Elsewhere,
}

/// <summary>What happened to a thing.</summary>
public enum ThingAct
{
    InPlace,
    Broken,
    Works,
    LoanerHere,
    LoanerBack,
    Moved,
    Returned,
}

/// <summary>How a thing stands.</summary>
public enum ThingState
{
    /// <summary>Promised and not there yet.</summary>
    Promised,
    InPlace,
    OutOfOrder,

    /// <summary>Given back: nobody waits for it any more.</summary>
    Returned,
}
