// Package photo reads the author's pictures, PNG and JPEG.
//
// In: the bytes of a file. Out: a [drawing.Raster], or an error in words for
// somebody who takes photographs. A JPEG stays as it was made, for documents carry
// it as it is: only its frame is read, and what cameras write beside the picture
// is left out, above all where it was taken. A PNG is decoded.
package photo
