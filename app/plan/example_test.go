package plan_test

import (
	"fmt"

	"garlandry/app/job"
	"garlandry/app/plan"
)

func ExampleMake() {
	j := job.Preview([]job.Change{
		job.Put("colour/coral", "name", "Coral"),
		job.Put("piece/door", "name", "Door garland"), job.Put("piece/door", "kind", "garland"),
		job.Put("piece/door", "length_mm", 3048), job.Put("piece/door", "recipe", "2x11@9.5"),
		job.Put("piece/door", "accents", 0),
		job.Put("piece/door", "colours", []job.Share{{Colour: "coral", Weight: 1}}),
		job.Count("card/make/door", 8),
	})
	p := plan.Make(j)
	fmt.Println(p.Pieces[0].Clusters, "clusters,", p.Pieces[0].Balloons, "balloons")
	for _, b := range p.Balloons {
		fmt.Println("buy", b.Buy, b.Colour.Name, b.Spares, "of them spares")
	}
	for _, c := range p.Cards {
		if c.Key == p.Pieces[0].MakeKey {
			fmt.Println(c.Title+":", c.Made, "of", c.Count)
		}
	}
	// Output:
	// 20 clusters, 80 balloons
	// buy 86 Coral 6 of them spares
	// Make the clusters for Door garland: 8 of 20
}
