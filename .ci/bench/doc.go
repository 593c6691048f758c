// Command bench prints how long Quarterstep's works take, how that grows with
// pieces and sizes, and how it compares with libraries that others wrote. It is
// called by make bench and is no part of what is shipped.
//
// Times are processor time, all threads together, the median of several runs.
// It ends with 1 where a work takes longer, against its peer, than is
// promised in rivals.go.
package main
