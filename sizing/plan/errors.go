package plan

import (
	"fmt"
	"strings"

	"growtuck/data"
)

// An UnmeasuredError is a part that cannot be planned, since the measurement of
// the body that it follows is not known.
type UnmeasuredError struct{ Part data.Part }

func (e *UnmeasuredError) Error() string {
	return fmt.Sprintf("%s cannot be planned: the body's %s is not known; measure it", e.Part.Name, strings.ReplaceAll(e.Part.Measurement, "_", " "))
}

// A SectionError is a section that comes out with no rows, or runs out of
// stitches in a row.
type SectionError struct {
	Section string
	NoRows  bool
	Row     int // that has no stitches, where there are rows
}

func (e *SectionError) Error() string {
	if e.NoRows {
		return e.Section + " has no rows: the garment is too short for its parts at this gauge"
	}
	return fmt.Sprintf("%s has no stitches left in row %d", e.Section, e.Row)
}
