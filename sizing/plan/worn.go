package plan

import (
	"math"
	"slices"

	"growtuck/sizing"
)

// PortPlaces are the places at which an opening is left for a tube or a port.
func PortPlaces() []string {
	return []string{"chest", "tummy", "side", "back", "upper-arm", "thigh"}
}

// seatRaiseCm is how much higher trousers are at the back.
func (m *maker) seatRaiseCm() float64 {
	if slices.Contains(m.f.Spec.Options, sizing.Seated) {
		return m.practice("seat_raise_seated").Value
	}
	return m.practice("seat_raise").Value
}

// ports note the openings for tubes and ports: where they are is for the child's carers
// to mark.
func (m *maker) ports() {
	if len(m.how.Ports) == 0 {
		return
	}
	width := m.practice("port_width").Value
	for _, place := range m.how.Ports {
		m.note("port-opening", place, sizing.Length(width), int(math.Round(m.g.Stitches(width))))
	}
	m.note("carers-decide")
}
