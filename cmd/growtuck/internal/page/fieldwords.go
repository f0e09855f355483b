package page

// fieldWords say what the fields of answers are, by their names, and by
// TYPE.NAME where a type means something of its own.
var fieldWords = map[string]string{}
