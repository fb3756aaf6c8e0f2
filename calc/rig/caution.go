package rig

// Cautions to show with every verdict, in our own words. Local codes, the venue's rules and licensed people take
// precedence.
const (
	// CautionBar belongs with [Bar.Dip].
	CautionBar = "This is arithmetic, not a test of your bar. Put it up at home at its full span, hang the whole load " +
		"on it overnight, and check every joint. Hang nothing from balloons. Never use a bar longer than you tested."
	// CautionStand belongs with [Frame.Tip].
	CautionStand = "A closed frame is a sail, and people lean on things. Weight every foot, keep children from " +
		"pulling at it, and leave ways out, exit signs and extinguishers free. Local codes and the venue decide whether " +
		"it may stand. A competent person must check anything that could hurt someone if it falls."
	// CautionWind belongs with [Frame.Tip] outdoors.
	CautionWind = "Outdoors: agree beforehand at what wind it comes down. Name one person to watch the wind, and take " +
		"it down early. Gusts are half as strong again as the forecast wind, and stronger between buildings. Ask the " +
		"venue and the local authority what is allowed."
	// CautionStakes belongs with [Frame.WithLines].
	CautionStakes = "Ask the owner before you drive a stake: cables, gas, water and irrigation lie under lawns. " +
		"Lines trip people: hang tape on them and keep them off paths and ways out."
	// CautionOverhead belongs with [Line.Hold].
	CautionOverhead = "Hang nothing heavy over people on line. Over people use only the venue's rated points and a " +
		"licensed rigger, by the local code."
	// CautionLine belongs with [Line.Hold].
	CautionLine = "Line weakens at knots, over edges, in sun and with age. Use new line, at least two points, tied to " +
		"the frame or the building's own points, never to balloons, pipes, lamps or sprinklers."
	// CautionLadder belongs wherever something is hung.
	CautionLadder = "Ladder: firm, level ground and a second person at the foot. Never stand on the top step or lean " +
		"out. Set a leaning ladder one part out for every four parts of its length. Look up for power lines."
	// CautionCarrying belongs to cards on which something heavy is carried.
	CautionCarrying = "Lift close to the body and without twisting. Carry base weights one at a time and frames with " +
		"two people."
	// CautionLifting belongs with [Lifting.Limit].
	CautionLifting = CautionCarrying + " The figure is for healthy adults on a dry, even floor. If it hurts, stop."
)
