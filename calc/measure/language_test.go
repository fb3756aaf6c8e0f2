package measure_test

import (
	"testing"

	"garlandry/calc/measure"

	"github.com/stretchr/testify/assert"
)

func TestUnitsFollowTheRegion(t *testing.T) {
	rows := []struct {
		name, tags string
		want       measure.System
	}{
		{"United States", "en-US,en;q=0.9", imperial},
		{"Liberia", "en-LR", imperial},
		{"Burmese", "my", imperial},
		{"Burmese in Myanmar", "my-MM;q=1", imperial},
		{"Spanish in the United States", "es-US", imperial},
		{"Britain is metric for lengths here", "en-GB,en-US;q=0.8", metric},
		{"Ireland", "en-IE", metric},
		{"Germany", "de-DE,de;q=0.9,en-US;q=0.8", metric},
		{"a script before the region", "zh-Hant-TW", metric},
		{"capitals", "EN-us", imperial},
		{"a language alone", "fr", metric},
		{"English alone", "en", imperial},
		{"nothing", "", imperial},
		{"any", "*", imperial},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			assert.Equal(t, row.want, measure.ByLanguage(row.tags, measure.Imperial))
		})
	}
	assert.Equal(t, metric, measure.ByLanguage(" ", measure.Metric))
}
