package picture

// Heap returns balloons piled up, the largest at the bottom, about as wide as high. Each lies on the floor or on
// others and none overlap. The middle is at X = 0 and the floor at Y = 0. Parts are indices of the sizes. It is
// meant for up to 2,000 balloons. All are in cluster 0.
func Heap(sizes []Size) []Balloon {
	balloons := seen(pileOf(sizes))
	e := ExtentOf(balloons)
	moveX(balloons, -(e.LeftMM+e.RightMM)/2)
	return balloons
}

func seen(balls []ball) []Balloon {
	balloons := make([]Balloon, len(balls))
	for i, b := range balls {
		balloons[i] = Balloon{XMM: b.x, YMM: b.y, DepthMM: b.z, RadiusMM: b.radius, Part: b.part, Slot: b.slot}
	}
	return balloons
}
