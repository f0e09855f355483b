package tell

// A Version is what the build and the tables say of themselves.
type Version struct {
	Program  string `json:"program"`
	Revision string `json:"revision"`
	Tables   string `json:"tables"`
	Go       string `json:"go"`
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
