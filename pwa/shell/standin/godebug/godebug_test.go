package godebug_test

import (
	"testing"

	"garlandry/pwa/shell/standin/godebug"

	"github.com/stretchr/testify/assert"
)

func TestEverySettingHasItsDefault(t *testing.T) {
	for name, row := range map[string]struct {
		given, name  string
		undocumented bool
	}{
		"documented":   {"asynctimerchan", "asynctimerchan", false},
		"undocumented": {"#inner", "inner", true},
		"without name": {"", "", false},
	} {
		s := godebug.New(row.given)
		assert.Equal(t, row.name, s.Name(), name)
		assert.Equal(t, row.undocumented, s.Undocumented(), name)
		assert.Equal(t, row.name+"=", s.String(), name)
		s.IncNonDefault()
		assert.Empty(t, s.Value(), name)
	}
}
