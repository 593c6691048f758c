package trace

// What tests of the package hold by itself.
var (
	Guides  = guides
	LongWay = longWay
	Carried = carried
	FarFrom = farFrom
)
