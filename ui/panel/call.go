package panel

// The On functions may be nil; these call them only when they are there.

func call(f func()) {
	if f != nil {
		f()
	}
}

func call1[T any](f func(T), v T) {
	if f != nil {
		f(v)
	}
}

func call2[T, U any](f func(T, U), v T, u U) {
	if f != nil {
		f(v, u)
	}
}

func call3[T, U, V any](f func(T, U, V), v T, u U, x V) {
	if f != nil {
		f(v, u, x)
	}
}

func ask[T any](f func(T, string) error, v T, text string) error {
	if f == nil {
		return nil
	}
	return f(v, text)
}

func askText(f func(string) error, text string) error {
	if f == nil {
		return nil
	}
	return f(text)
}
