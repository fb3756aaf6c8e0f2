package job_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
)

func TestRangesNameBothUnits(t *testing.T) {
	for _, row := range []struct{ entity, field, want string }{
		{"piece/x", "length_mm", "100 to 500000 mm (0.1 m to 500 m, "},
		{"piece/x", "length_mm", "ft"},
		{"brief", "prep_c", "-20 to 50 degrees C (-20 °C to 50 °C, -4 °F to 122 °F)"},
		{"piece/x", "count", "1 to 500"},
	} {
		n, known := job.FindNoun(row.entity)
		require.True(t, known)
		f, known := n.Field(row.field)
		require.True(t, known)
		assert.Contains(t, f.Range(), row.want)
	}
}
