package latex

// Cautions to show beside anything with balloons or helium, in our own words.
// Local law, the venue's rules and the makers' labels come first.
const (
	// CautionChoking belongs wherever balloons are handled.
	CautionChoking = "Children under eight can choke or suffocate on empty or burst balloons. Keep them away from " +
		"both, pick up pieces at once, let only adults fill and tie."
	// CautionAllergy belongs with every order and on the card at the venue.
	CautionAllergy = "This is natural rubber latex, to which some people are allergic, a few of them badly. Ask about " +
		"guests and staff before ordering and say so at the door."
	// CautionHelium belongs wherever helium is used.
	CautionHelium = "Never breathe helium, least of all from a cylinder: it takes the place of air without any " +
		"warning and the pressure can tear a lung. Keep the cylinder upright and tied, its cap on while it is moved, the " +
		"valve shut when idle and a door open; never carry it loose in a car. Follow the supplier's instructions and " +
		"local rules."
	// CautionRelease belongs wherever a balloon floats.
	CautionRelease = "Tie every floating balloon to a weight and never let one go outdoors: in many places it is " +
		"against the law, and it ends as litter everywhere. Nothing that conducts may float; stay away from power lines."
	// CautionHeat belongs with growth by warmth.
	CautionHeat = "Sun and hot lamps burst balloons. A closed car in the sun passes 60 °C: never leave filled " +
		"balloons, or a gas cylinder, in it."
	// CautionEyes belongs with filling and twisting.
	CautionEyes = "A balloon that bursts while it is filled or twisted hits the face and the ears: wear glasses and " +
		"turn it away from you."
)
