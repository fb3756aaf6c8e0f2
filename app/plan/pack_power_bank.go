package plan

// powerBankRule packs a power bank for the telephone that holds the plan.
func powerBankRule() packRule {
	return thing("tool/power-bank", "bag/air", "Phone power bank and cable", "", true, func(d *draft) (int, string, Source) {
		if len(d.pieces) == 0 {
			return 0, "", Source{}
		}
		return 1, "the plan is on your phone all day", usual()
	})
}
