package forecast

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// TestTheOrderOfFixesIsStrict checks the order of any three fixes: turned round it is the opposite, and it is
// transitive, equals included, so that no sort can put a worse fix before a better one.
func TestTheOrderOfFixesIsStrict(t *testing.T) {
	t.Parallel()
	anyFix := rapid.Custom(func(t *rapid.T) Fix {
		odds := rapid.SampledFrom([]float64{0, 0.01, 0.03, 0.06, 0.21, 0.81, 0.9, 0.97}).Draw(t, "odds")
		return Fix{Key: fmt.Sprint(odds), Reaches: odds >= Target, price: float64(rapid.IntRange(0, 3).Draw(t, "price")),
			Forecast: &Forecast{Odds: odds, Ninety: rapid.IntRange(600, 603).Draw(t, "ninety")}}
	})
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := anyFix.Draw(t, "a"), anyFix.Draw(t, "b"), anyFix.Draw(t, "c")
		assert.Equal(t, a.order(&b), -b.order(&a), "turned round")
		if a.order(&b) <= 0 && b.order(&c) <= 0 {
			assert.Equal(t, min(a.order(&b), b.order(&c)), a.order(&c), "transitive")
		}
		if !a.Reaches && a.Forecast.Odds > b.Forecast.Odds {
			assert.Negative(t, a.order(&b), "better odds come first")
		}
		if a.Reaches && b.Reaches && a.price < b.price {
			assert.Negative(t, a.order(&b), "of those that reach, the cheaper one comes first")
		}
	})
}
