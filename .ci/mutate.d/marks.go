package main

// markBreaks are lies about where a figure comes from, and about its unit.
var markBreaks = []mutation{
	{"a remembered friction is called published", "calc/rig/ground.go", `{"grass", 0.35, "", MarkFromMemory}`,
		`{"grass", 0.35, "", MarkPublished}`, by("./calc", "TestMarksAreThoseOfTheBranchTaken")},
	{"a bench test that nobody did", "calc/dip.go", "if bar.Mark == rig.MarkMeasured {", "if bar.SpanMM > 0 {",
		by("./calc", "TestMarksAreThoseOfTheBranchTaken")},
	{"the drag of a part-open face is not named", "calc/tip.go",
		`result.useIf(frame.Solidity < 1, "wind/part-open")`, "", by("./calc", "TestMarksAreThoseOfTheBranchTaken")},
	{"a calculator's example is not tried beside the other inputs", "calc/compute.go",
		`is && refused.Example != "" {`, `is && refused.Example == "" {`,
		by("./calc", "TestErrorsOfferOnlyWhatIsTaken")},
	{"a field offers what it refuses", "pwa/form/read_value.go", "return err == nil && n >= lowest(f) && n <= f.Max",
		"return err == nil || n >= lowest(f) && n <= f.Max",
		by("./pwa/form", "TestErrorsOfFieldsOfferOnlyWhatTheyTake")},
	{"a sized-to without a unit is always inches", "calc/measure/length.go", `metric: "cm",
		imperial: "in", max: maxLengthMM, compound: true}
	thinLength`, `metric: "in",
		imperial: "in", max: maxLengthMM, compound: true}
	thinLength`, by("./calc", "TestBareNumbersHaveTheUnitOfREADME")},
	{"a full loose balloon takes the room of a sphere", "calc/car.go", "AirL: size.VolumeL(mm)}",
		"AirL: 0 * size.VolumeL(mm)}",
		by("./calc", "TestLooseBalloonsNeverFillMoreThanARandomPacking")},
	{"a measured section holds the air of the usual recipe", "calc/car.go", `!v.assumed("recipe")`,
		`v.Has("recipe")`, by("./calc", "TestASectionOfMeasuredThicknessIsABar")},
	{"balloons from a cylinder that nobody gave", "calc/lift.go", "if in.Cylinder.Given() {",
		"if in.Cylinder.TempC != 0 {", by("./calc", "TestNothingIsSaidOfWhatWasNotGiven")},
}
