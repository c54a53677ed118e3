Console.WriteLine("TeamCircle");
