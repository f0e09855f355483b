package sizing

// BridgeLeastCm is the least bridge between the legs of a garment, of hips of a
// girth: a share of them, but never under a length, which is more over a nappy
// and over winter clothes. figure gives a figure of the trade by its id.
func (m Spec) BridgeLeastCm(hipCm float64, figure func(id string) Practice) float64 {
	least := figure("bridge_least_length").Value
	if m.Nappy {
		least += figure("bridge_nappy").Value
	}
	if m.Layer == "winter" {
		least += figure("bridge_winter").Value
	}
	return max(least, hipCm*figure("bridge_least").Share())
}
