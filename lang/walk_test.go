package lang

import "reflect"

// visit calls f for every node under v, with its depth in the tree.
func visit(v reflect.Value, depth int, f func(Node, int)) {
	switch v.Kind() {
	case reflect.Interface, reflect.Pointer:
		if v.IsNil() {
			return
		}
		if n, ok := v.Interface().(Node); ok && v.Kind() == reflect.Pointer {
			f(n, depth)
			depth++
		}
		visit(v.Elem(), depth, f)
	case reflect.Slice:
		for i := range v.Len() {
			visit(v.Index(i), depth, f)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				visit(v.Field(i), depth, f)
			}
		}
	}
}

func heightOf(f *File) int {
	height := 0
	visit(reflect.ValueOf(f.Decls), 0, func(_ Node, depth int) { height = max(height, depth) })
	return height
}
