package list

// AppendNumber is for tests beside package tell, which imports this one.
var AppendNumber = appendNumber
