using TeamCircle.Testing.Postgres;

[assembly: AssemblyFixture(typeof(PgAssembly))]
