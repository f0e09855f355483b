package tell

var listWords = map[string]string{
	"list.doubtful-column": "column {} is not a measurement and is copied unchanged; did you mean {}?",
}
