package calc

// Kind is the quantity of an input or output. It decides how text is parsed and how a figure is written.
type Kind string

// Kinds, with the unit in which their values are held.
const (
	KindLength      Kind = "length"       // mm; room size: metres or feet
	KindSmallLength Kind = "small_length" // mm; balloon size: centimetres or inches
	KindThinLength  Kind = "thin_length"  // mm; finger size: millimetres or inches
	KindAltitude    Kind = "altitude"     // m above the sea
	KindTemperature Kind = "temperature"  // degrees Celsius
	KindMass        Kind = "mass"         // g; a bare number is kg or lb
	KindKilograms   Kind = "kilograms"    // kg; outputs only
	KindSmallMass   Kind = "small_mass"   // g; a bare number is g or oz
	KindVolume      Kind = "volume"       // litres
	KindSpeed       Kind = "speed"        // m/s
	KindPressure    Kind = "pressure"     // Pa
	KindForce       Kind = "force"        // N; needs a unit: "90 N", "20 lb", "9 kg"
	KindAngle       Kind = "angle"        // degrees
	KindPercent     Kind = "percent"      // percent
	KindPart        Kind = "part"         // share of a whole, 0 to 1: "75 %", "0.75" or "3/4"
	KindNumber      Kind = "number"       // plain number
	KindPerLength   Kind = "per_length"   // things in a metre; outputs only, written in a metre or a foot
	KindCount       Kind = "count"        // whole number
	KindMoney       Kind = "money"        // hundredths of the job's currency
	KindMinutes     Kind = "minutes"      // minutes
	KindHours       Kind = "hours"        // hours
	KindSize        Kind = "size"         // nominal balloon size in inches, whole
	KindRecipe      Kind = "recipe"       // cluster.Recipe: "2x11@10 + 1x18@16"
	KindChoice      Kind = "choice"       // one of Input.Choices
	KindFlag        Kind = "flag"         // yes or no
	KindText        Kind = "text"         // words
	KindBags        Kind = "bags"         // []stock.Bag: "100:9.90, 50:5.60"
	KindWeights     Kind = "weights"      // []Weight: "coral 3, sand 2"
	KindLoads       Kind = "loads"        // []Load: "sign 2kg @ 1.2m, cloth 1.8kg along"
	KindPoints      Kind = "points"       // []outline.Point: "0,0; 1.2,0.8; 2.4,0"
	KindBalloons    Kind = "balloons"     // []Loose: "120 x 11@10, 40 x 5"
	KindBox         Kind = "box"          // Box: "140 x 100 x 80 cm", or "90 x 70 cm" for an opening
	KindMeasured    Kind = "measured"     // MeasuredBase: "12 in 3.1m"
	KindCounts      Kind = "counts"       // list of whole numbers, outputs only
	KindLengths     Kind = "lengths"      // list of mm, outputs only
)
