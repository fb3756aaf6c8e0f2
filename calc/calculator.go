package calc

import "garlandry/calc/latex"

// Input is one question of a calculator.
type Input struct {
	Key   string // as in key=value, lower case with underscores
	Label string // a few words, for a form
	Help  string // what it is and where to read it off, for a beginner
	Kind  Kind
	// Default is used if nothing is typed, with its own unit. Empty means no default.
	Default string
	// Min and Max bound the value, both included, in the unit of Kind. They are checked only if Max is above Min.
	Min, Max float64
	Choices  []string // the choices of KindChoice
	Required bool     // refused when missing; never with a Default
	Advanced bool     // may be hidden at first
	// BareMetric is true if the key names the unit (extra_g): a bare number then has that unit in any system.
	BareMetric bool
	Example    string // something that would be accepted; see ExampleIn
}

// Output is one result of a calculator.
type Output struct {
	Key     string // carries the unit: pitch_mm
	Label   string
	Meaning string
	Kind    Kind
	Main    bool // the figure to show large
}

// Marks say how far a source can be trusted.
const (
	MarkPublished      = "published"
	MarkCommonPractice = "common practice"
	MarkFromMemory     = "from memory"
	// MarkScaled is for figures that start from common practice and are scaled to other sizes by physics.
	MarkScaled   = latex.MarkScaled
	MarkMeasured = "measured by you"
)

// Source is the source of a rule or a figure.
type Source struct {
	Text string `json:"text"`
	Mark string `json:"mark"` // one of the Mark constants
}

// Entry is one input as text.
type Entry struct {
	Key, Text string
	// Assumed is true when the text is the default, not typed by anybody.
	Assumed bool
}

// Expectation is what an example must give: a number to within Within, or a text or list with the text Text.
type Expectation struct {
	Key    string
	Value  float64
	Within float64
	Text   string
}

// Example is a worked case, run by the tests; see [Calculator.ExampleIn].
type Example struct {
	Story  string
	Inputs []Entry
	Expect []Expectation
}

// Calculator is one entry of the list. Its tables are shared: never change them.
type Calculator struct {
	Name     string // one word, as on the command line
	Title    string // as on a page
	Group    string // calculators of one group stand together
	Purpose  string // one line
	Inputs   []Input
	Outputs  []Output
	Cautions []string
	Example  Example
	// Run computes values that have been read and range-checked. It fills in a Result, whose Outputs map exists. Call
	// Compute instead.
	Run func(Values, *Result) error
}

// Input returns the input with that key.
func (c *Calculator) Input(key string) (Input, bool) {
	for i := range c.Inputs {
		if c.Inputs[i].Key == key {
			return c.Inputs[i], true
		}
	}
	return Input{}, false
}

// Raw returns the example's inputs for Compute.
func (e Example) Raw() map[string]string {
	raw := make(map[string]string, len(e.Inputs))
	for _, entry := range e.Inputs {
		raw[entry.Key] = entry.Text
	}
	return raw
}
