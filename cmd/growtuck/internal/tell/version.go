package tell

// A Version is the versions of the program, of the tables and of Go.
type Version struct {
	Program  string `json:"program" doc:"version of the program"`
	Revision string `json:"revision" doc:"revision that the program was built from; may be empty"`
	Tables   string `json:"tables" doc:"version of the tables"`
	Go       string `json:"go" doc:"version of Go that the program was built with"`
}

// Document reports the versions.
func (v Version) Document() Document {
	g := Table{Columns: []Column{{}, {}}}
	for _, line := range [][2]string{{"growtuck", v.Program}, {"revision", v.Revision}, {"tables", v.Tables}, {"go", v.Go}} {
		if line[1] != "" {
			g.Rows = append(g.Rows, NewRow(line[0], line[1]))
		}
	}
	return Document{Tables: []Table{g}, Rows: []Version{v}, JSON: v}
}
