package calc_test

// family is a named case of a calculator and its variations. " / " separates inputs, "|" the values to try one after
// the other. A change of several inputs is tried in every combination.
type family struct {
	name, base string
	changes    []string
}

// goldenCases lists the cases that TestGoldens computes, by calculator.
var goldenCases = map[string][]family{
	"clusters": {
		{"a base of quads", "length=3.1m / recipe=2x11@9.5", []string{"length=5cm|1m|10ft|31m|300m", "push=0.5|2.5",
			"measured=9 in 2.2m|12 in 3.1m|15 in 3.1m|18 in 3.1m"}},
		{"a base of two sizes", "length=7.31m / recipe=2x11@10 + 1x18@16", []string{"push=0.5|2.5",
			"measured=12 in 3.1m", "recipe=1x11@10|4x5@4.5|1x36@33|4x11@10 + 2x24@20|2x5@4 + 2x11@10 + 1x18@16",
			"recipe=3x11@10|8x11@11 / push=|0.5|2.5"}},
	},
	"accents": {
		{"accents on quads", "length=3.1m / recipe=2x11@9.5", []string{"length=1m|31m", "coverage=80%|97%|99.5%",
			"push=0.5|2.5", "accent=1x11@10", "measured=17 in 3.1m|24 in 3.1m"}},
		{"accents on two sizes", "length=3.1m / recipe=2x11@10 + 1x18@16 / coverage=99%", []string{"accent=1x11@10",
			"recipe=8x11@11", "push=0.5", "coverage=80%"}},
	},
	"match": {
		{"a colour that has no 18-inch", "recipe=2x11@10 + 1x18@16 / with=11@10", []string{"max_duplets=1|8",
			"with=5@4.5|18@16|36@33", "recipe=2x11@9.5|8x11@11"}},
		{"one large duplet", "recipe=1x36@33 / with=11@10", []string{"max_duplets=1|8", "with=18@16|36@33"}},
	},
	"outline": {
		{"a line", "shape=line / width=11ft", []string{"section_max=1.8m", "height=3m"}},
		{"part of a circle", "shape=arc / width=11ft / height=0.7m", []string{"height=3m", "section_max=1.8m"}},
		{"an arch", "shape=arch / width=2m / height=3m", []string{"height=0.7m", "section_max=1.8m", "part=50%"}},
		{"a hoop", "shape=hoop / diameter=1.9m", []string{"part=75%", "section_max=1.8m"}},
		{"an oval", "shape=ellipse / width=2.4m / height=0.7m", []string{"height=3m", "part=75%"}},
		{"a swag", "shape=catenary / span=2.4m / sag=0.1m", []string{"sag=0.9m", "section_max=1.8m"}},
		{"a bow", "shape=parabola / span=2.4m / rise=0.4m", []string{"section_max=1.8m"}},
		{"a curve of one's own", "shape=curve / points=0,0; 1.2,0.8; 2.4,0", []string{"points=0,0; 3,1",
			"section_max=1.8m"}},
	},
	"column": {
		{"a column of quads", "height=6ft / recipe=2x11@9.5", []string{"height=20cm|2.31m|5m", "push=0.5|2.5",
			"recipe=1x11@10|4x5@4.5|1x36@33|2x11@10 + 1x18@16|8x11@11"}},
		{"a column of three duplets", "height=2m / recipe=3x11@10", []string{"measured=12 in 3.1m|15 in 3.1m"}},
	},
	"wall": {
		{"a wall of quads", "width=8ft / height=2m / recipe=2x11@9.5", []string{"width=5m", "height=20cm|2.31m",
			"push=0.5|2.5", "columns_apart=45cm", "recipe=2x11@10 + 1x18@16|8x11@11"}},
		{"a wall of other clusters", "width=2m / height=2m / recipe=3x11@10", []string{"measured=14 in 3.1m", "width=9m",
			"recipe=1x11@10 + 1x24@22|1x5@4.5 + 1x18@16|2x5@4 + 2x11@10 + 1x18@16 / push=|1.5"}},
	},
	"size": {
		{"an 11-inch", "size=11", []string{"to=5in|9in|10in|27cm", "to=10in / latex_g=2.5|3.1"}},
		{"other sizes", "size=5", []string{"to=2in|13cm", "size=9|10|12|16|18|24|36", "size=18 / to=14in|17.5in",
			"size=36 / to=20in|36in"}},
	},
	"heat": {
		{"into a hot room", "size=11 / to=10in / fill_temp=18C / show_temp=35C", []string{"to=9in|11in",
			"fill_temp=5C|40C", "show_temp=0C|45C", "fill_altitude=600m", "show_altitude=1500m", "growth=0.5|2",
			"became=10.3in|26.1 cm", "size=5|24|36 / to="}},
	},
	"lift": {
		{"an 11-inch on its weight", "size=11 / to=11in", []string{"to=10in", "temp=5C|38C", "altitude=2000m",
			"humidity=0|100%", "extra_g=0|5", "purity=80%|92%", "gel=5|20", "latex_g=2.5|3.4", "floated=20|30 h",
			"gel=5 / floated=30 h", "pulls=8 g|11 g / gas=1.2", "holds=13 L|0.5 cu ft", "gas=0.8",
			"cylinder_gas=50 cu ft|1.5 m3", "cylinder_l=10|50 / cylinder_bar=150|200", "size=5|18 / to="}},
		{"a giant", "size=36 / to=30in", []string{"to=36in", "purity=90%", "extra_g=10",
			"cylinder_l=10 / cylinder_bar=200 / temp=5C|35C", "cylinder_l=10 / cylinder_bar=200 / purity=90%"}},
	},
	"spares": {
		{"one colour", "need=96", []string{"need=0|1|7|200|2400|100000", "fail=0|2.5|12.5|40", "sure=50|90|99.9",
			"need=7 / fail=2.5|40 / sure=50|99.9", "need=2400 / fail=2.5|40 / sure=50|99.9"}},
	},
	"split": {
		{"three colours", "total=96 / weights=coral 53000, sand 24000, blush 23000", []string{"total=0|1|7|219|100000",
			"weights=3,2,1|1,1,1|0.1,0.1,0.8|5,0,5|1,1,1,1,1,1,1", "weights=1,1,1 / total=7", "weights=3,2,1 / total=219"}},
	},
	"bags": {
		{"some in the cupboard", "need=219 / have=40 / bags=100:9.90, 50:5.60, 25:3.20", []string{"have=0|300",
			"need=0|1|99|1001|25000", "bags=72:7.10, 15:1.99|1:0.35|100:0", "bags=72:7.10, 15:1.99 / need=99|1001"}},
	},
	"dip": {
		{"a bar tested on the bench",
			"span=2.4m / loads=sign 2kg @ 1.2m, cloth 1.8kg along / test_weight=1.55kg / test_dip=18mm / test_stays=6mm",
			[]string{"span=1.8m|3.6m", "loads=3kg|1kg @ 0.3m, 2kg from 0.5m to 1.5m|1kg @ -0.2m|sign 4kg @ 2.6m",
				"loads=1kg @ -0.2m, 2kg @ 2.6m / left=0.3m / right=0.4m", "test_span=1.8m", "test_dip=12mm",
				"test_weight=1kg", "test_stays=0", "visible=150", "useless=60", "visible=60 / useless=30", "left=0.3m",
				"right=0.5m"}},
		{"a tube by its measures",
			"span=1.8m / loads=sign 2kg @ 1.2m, cloth 1.8kg along / tube_outer=25mm / tube_wall=1.2mm", []string{
				"span=3m", "loads=3kg", "tube_outer=40mm", "tube_wall=2mm", "material=aluminium|wood|pvc", "joints=1|3",
				"joints=1|2|3 / play=0.5", "left=0.3m", "right=0.5m", "joints=3 / play=0.5 / span=3m / material=wood"}},
	},
	"tip": {
		{"a closed backdrop in the wind", "width=2.4m / height=2m / weight=40kg / base_depth=0.6m / wind=8 m/s", []string{
			"width=1m", "height=2.5m", "bottom=0.25m", "weight=8kg|400kg", "base_depth=1m", "solidity=40%",
			"wind=Bft 3|3 m/s|12 m/s|20 km/h", "depth=0.5m", "forward=15cm|25cm", "factor=2", "base_width=0.5m",
			"ground=grass|wood feet on concrete|steel feet on concrete|concrete weights on concrete",
			"weight=400kg / ground=polished floor|grass", "weight=400kg / base_depth=2m", "weight=30kg / wind=Bft 4|12 mph",
			"depth=0.5m / base_width=0.4m / base_depth=3m"}},
		{"somebody leans on a frame", "width=1.2m / height=2m / weight=12kg / base_depth=0.6m / push=60 N / push_at=1.4m",
			[]string{"push=200 N", "push_at=0.5m", "weight=60kg", "base_width=0.5m", "factor=2", "forward=15cm",
				"ground=carpet|grass|polished floor|steel feet on smooth cast concrete", "wind=8 m/s",
				"weight=60kg / ground=polished floor / push_at=0.5m", "weight=60kg / base_depth=1.5m"}},
	},
	"line": {
		{"a sign on two lines", "weight=2kg / strength=90 N", []string{"weight=0.4kg|1kg|15kg", "points=1|4",
			"angle=20|45|60", "strength=400 N|20 lb|9 kg", "knot=80%", "factor=8", "over_people=yes",
			"weight=1kg / angle=60", "weight=0.4kg / points=1"}},
	},
	"car": {
		{"clusters and sections in an estate car",
			"cargo=180 x 110 x 85 cm / recipe=2x11@9.5 / clusters=20 / sections=3 / section_length=2.4m", []string{
				"cargo=3 x 1.7 x 1.8 m", "door=100 x 75 cm|10 x 10 cm|90 x 90 cm", "recipe=2x11@10 + 1x18@16|8x11@11",
				"clusters=0|200", "balloons=120 x 11@10, 40 x 5", "sections=0|1", "section_length=1m|6m", "litres=900",
				"section_thick=40cm|90cm", "squeeze=0|20%", "packing=40%|64%", "squeeze=0|20% / section_length=1m",
				"sections=0 / balloons=300 x 5", "clusters=0 / sections=0 / balloons=120 x 11@10, 40 x 5"}},
		{"a space in litres", "litres=1200 / recipe=2x11@10 + 1x18@16 / clusters=12", []string{"litres=300|6000",
			"clusters=1|40", "squeeze=0|30%", "packing=40%|64%", "door=90 x 90 cm", "recipe=2x5 + 2x11 + 1x24",
			"balloons=300 x 5", "sections=2 / section_length=1m|2.5m"}},
	},
}
