package plan_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/job"
)

// The plan buys 11-inch balloons in bags of 25, 50 and 100 as the calculator does.
func TestTheShopLineNamesTheBags(t *testing.T) {
	line := lineOf(t, garland(3048, job.Put("brief", "spare_pct", 0)), "latex/11/coral")
	assert.Equal(t, 80, line.Need)
	assert.Equal(t, "1 bag of 100, 20 left over", line.Words(), "one bag rather than 50 + 25 + 25")
	bags := compute(t, "bags", map[string]string{"need": fmt.Sprint(line.Need), "bags": "100:100, 50:50, 25:25"})
	assert.Equal(t, []int{1, 0, 0}, bags.Outputs["bags"])
	more := lineOf(t, garland(6096, job.Put("brief", "spare_pct", 0)), "latex/11/coral")
	assert.Equal(t, 160, more.Need)
	assert.Equal(t, "1 bag of 100 and 1 bag of 50 and 1 bag of 25, 15 left over", more.Words())
}
