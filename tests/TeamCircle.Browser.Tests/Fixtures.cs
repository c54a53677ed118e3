using TeamCircle.Browser.Tests.Browser;

[assembly: AssemblyFixture(typeof(PortalSite))]
