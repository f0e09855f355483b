package tell

import (
	"slices"

	"growtuck/data"
	"growtuck/sizing"
)

// alwaysShown are measurements that makers and patterns speak of, though no
// garment of the tables has a part that is worked out from them.
var alwaysShown = []string{"height", "weight", "shoulder_breadth", "neck_to_wrist", "arm_length"}

// Shown reports which measurements tables show: all that were named, or all, or
// else those that garments need. CSV and JSON leave out nothing.
func Shown(ref *sizing.Reference, only []string, all bool) (func(data.Measurement) bool, error) {
	if all || len(only) > 0 {
		return func(data.Measurement) bool { return true }, nil
	}
	worn, err := ref.Worn()
	if err != nil {
		return nil, err
	}
	needed := slices.Concat(alwaysShown, worn)
	return func(m data.Measurement) bool { return slices.Contains(needed, m.ID) }, nil
}
