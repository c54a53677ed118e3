namespace TeamCircle.Data;

/// <summary>Why the portal, the terminal program or a test run can't start, in one line that says what to do.</summary>
/// <remarks>Shown as it is, without a stack trace; so it holds no names, no passwords and no connection strings.</remarks>
/// <param name="message">One line: what is wrong, and what to do about it.</param>
/// <param name="cause">What was caught, for the log of a developer; may be null.</param>
public sealed class StartupFailure(string message, Exception? cause = null) : Exception(message, cause);
