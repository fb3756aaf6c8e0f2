package calc_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"testing"

	"garlandry/calc"
	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ExampleCalculator_JSON() {
	c, _ := calc.Find("bags")
	result, _ := c.Compute(nil, map[string]string{"need": "130", "bags": "100:9.90, 50:5.60, 25:3.20"}, measure.Metric)
	encoded, _ := c.JSON(result)
	var lines bytes.Buffer
	_ = json.Indent(&lines, encoded, "", " ")
	fmt.Println(lines.String())
	// Output:
	// {
	//  "name": "bags",
	//  "inputs": {
	//   "need": "130",
	//   "have": "0",
	//   "bags": "100:9.90, 50:5.60, 25:3.20"
	//  },
	//  "outputs": {
	//   "buy": "1 × 100, 1 × 50",
	//   "bags": [
	//    1,
	//    1,
	//    0
	//   ],
	//   "cost": 15.5,
	//   "left": 20
	//  },
	//  "notes": [],
	//  "sources": [
	//   {
	//    "text": "Least cost, then fewest left over, then fewest bags, exact by dynamic programming",
	//    "mark": "published"
	//   }
	//  ]
	// }
}

func checkJSON(t *testing.T, c calc.Calculator, result calc.Result) {
	t.Helper()
	encoded, err := c.JSON(result)
	require.NoError(t, err)
	var decoded struct {
		Name            string
		Inputs, Outputs map[string]any
		Notes, Sources  []any
	}
	require.NoError(t, json.Unmarshal(encoded, &decoded))
	assert.Equal(t, c.Name, decoded.Name)
	assert.Len(t, decoded.Outputs, len(result.Outputs))
	assert.NotNil(t, decoded.Notes)
	assert.Len(t, decoded.Sources, len(result.Sources))
}
