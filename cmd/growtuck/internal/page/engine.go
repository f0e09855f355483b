package page

import (
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/data"
	"growtuck/sizing"
)

// An Engine is what the page is a face of.
type Engine struct {
	Reference *sizing.Reference
	Version   tell.Version                 // of the program
	Edition   string                       // of the tables
	Tables    func() (*data.Tables, error) // as they are, to propose rows for
}
