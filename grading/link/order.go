package link

// Arrow says that piece Follow is drawn from piece Lead, by index.
type Arrow struct{ Lead, Follow int }

// Order is the pieces 0 to n-1 with every leader before its followers, and the
// indices of the arrows that run in a ring, which count for nothing. An arrow
// from a piece to itself is no ring. Pieces keep their order where nothing says
// otherwise.
func Order(n int, arrows []Arrow) (order, ring []int) {
	o := ordering{index: make([]int, n), low: make([]int, n), on: make([]bool, n), group: make([]int, n), leads: make([][]int, n)}
	for _, a := range arrows {
		if a.Lead != a.Follow {
			o.leads[a.Follow] = append(o.leads[a.Follow], a.Lead)
		}
	}
	for i := range n {
		if o.index[i] == 0 {
			o.visit(i)
		}
	}
	for k, a := range arrows {
		if a.Lead != a.Follow && o.group[a.Lead] == o.group[a.Follow] {
			ring = append(ring, k)
		}
	}
	return o.order, ring
}

// ordering finds the rings: R. Tarjan, Depth-first search and linear graph
// algorithms, SIAM J. Comput. 1 (1972), section 4. A group is done after all
// those it is drawn from.
type ordering struct {
	index, low []int // from 1
	on         []bool
	stack      []int
	group      []int
	groups     int
	leads      [][]int
	order      []int
	met        int
}

func (o *ordering) visit(i int) {
	o.met++
	o.index[i], o.low[i] = o.met, o.met
	o.stack, o.on[i] = append(o.stack, i), true
	for _, l := range o.leads[i] {
		if o.index[l] == 0 {
			o.visit(l)
			o.low[i] = min(o.low[i], o.low[l])
		} else if o.on[l] {
			o.low[i] = min(o.low[i], o.index[l])
		}
	}
	if o.low[i] != o.index[i] {
		return
	}
	o.groups++
	for {
		top := o.stack[len(o.stack)-1]
		o.stack, o.on[top] = o.stack[:len(o.stack)-1], false
		o.group[top] = o.groups
		o.order = append(o.order, top)
		if top == i {
			return
		}
	}
}
