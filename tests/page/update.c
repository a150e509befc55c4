/* SPDX-License-Identifier: GPL-3.0-or-later
   update.c - what is written behind a PDF that is done: ISO 32000-1, 7.5.4 to 7.5.8 and 14.9 (from memory).  The files are
   laid out as cairo 1.16 writes them, and, with objects in streams, 1.18; what Debian 12 and 13 have is tested by draw/files.tap
   and lesson/pages.tap with the pages themselves.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "check.h"

#include <zlib.h>

#include "page/update.h"

#define FIRST "<< /Type /StructElem\n   /S /Figure\n>>\n"
#define OTHER "<< /Type /StructElem\n   /S /P\n>>\n"
#define SECOND "<< /Type /StructElem\n   /S /Figure\n   /K 18\n>>\n"
#define CATALOGUE "<< /Type /Catalog\n   /Pages 1 0 R\n>>\n"

/* Of which the last letter is of two bytes in UTF-8, and a sign of four.  */
static char *const descriptions[] = { "a c\303\251", "\360\237\233\236" };

static void
put (br__bytes *to, const char *text)
{
  assert_true (br__bytes_put (to, text, strlen (text)));
}

/* FILE is its first LENGTH bytes and then the words of the format, with a place of an object for each %zu.  */
#define ENDS_WITH(file, length, ...)                                          \
  do                                                                          \
    {                                                                         \
      char expected_[1000];                                                   \
      snprintf (expected_, sizeof expected_, __VA_ARGS__);                    \
      assert_string_equal ((file)->bytes + (length), expected_);              \
    }                                                                         \
  while (0)

static size_t
place (const br__bytes *file, size_t from, const char *word)
{
  const char *found = strstr (file->bytes + from, word);
  assert_non_null (found);
  return (size_t) (found - file->bytes);
}

static void
put_plain (br__bytes *file)
{
  char line[40];
  put (file, "%PDF-1.5\n3 0 obj\n<< /Length 4 >>\nstream\nq Q\nendstream\nendobj\n");
  put (file, "4 0 obj\n" FIRST "endobj\n5 0 obj\n" OTHER "endobj\n16 0 obj\n" SECOND "endobj\n12 0 obj\n" CATALOGUE "endobj\n");
  snprintf (line, sizeof line, "startxref\n%zu\n%%%%EOF\n", file->length);
  put (file, "xref\n0 17\ntrailer\n<< /Size 17\n   /Root 12 0 R\n   /Info 11 0 R\n>>\n");
  put (file, line);
}

static void
test_plain (void **state)
{
  (void) state;
  br__bytes file = { NULL, 0, 0, 0 };
  put_plain (&file);
  size_t length = file.length, table = place (&file, 0, "xref\n");
  assert_int_equal (br__pdf_update (&file, "de-AT", descriptions, 2), 1);
  size_t four = place (&file, length, "4 0 obj"), twelve = place (&file, length, "12 0 obj"),
    sixteen = place (&file, length, "16 0 obj"), end = place (&file, length, "xref\n");
  ENDS_WITH (&file, length,
             "4 0 obj\n<< /Type /StructElem\n   /S /Figure\n   /Alt <FEFF00610020006300E9>\n>>\nendobj\n"
             "12 0 obj\n<< /Type /Catalog\n   /Pages 1 0 R\n   /Lang (de-AT)\n   /ViewerPreferences << /DisplayDocTitle true >>\n"
             ">>\nendobj\n"
             "16 0 obj\n<< /Type /StructElem\n   /S /Figure\n   /K 18\n   /Alt <FEFFD83DDEDE>\n>>\nendobj\n"
             "xref\n4 1\n%010zu 00000 n \n12 1\n%010zu 00000 n \n16 1\n%010zu 00000 n \n"
             "trailer\n<< /Size 17\n   /Root 12 0 R\n   /Info 11 0 R\n   /Prev %zu\n>>\nstartxref\n%zu\n%%%%EOF\n",
             four, twelve, sixteen, table, end);
  free (file.bytes);
}

/* TEXT as an object, a stream that is packed; its dictionary has the words MORE.  */
static void
put_packed (br__bytes *file, const char *head, const char *more, const char *text)
{
  unsigned char packed[1000];
  uLongf length = sizeof packed;
  assert_int_equal (compress (packed, &length, (const unsigned char *) text, strlen (text)), Z_OK);
  put (file, head);
  put (file, more);
  put (file, "   /Filter /FlateDecode\n>>\nstream\n");
  assert_true (br__bytes_put (file, (const char *) packed, length));
  put (file, "\nendstream\nendobj\n");
}

/* Objects in a stream, of which STREAM says how many and from where on.  */
static void
put_modern (br__bytes *file, const char *stream)
{
  char numbers[100], text[1000], line[40];
  snprintf (numbers, sizeof numbers, "4 0\n5 %zu\n16 %zu\n12 %zu\n", strlen (FIRST), strlen (FIRST OTHER), strlen (FIRST OTHER SECOND));
  snprintf (text, sizeof text, "%s%s", numbers, FIRST OTHER SECOND CATALOGUE);
  snprintf (line, sizeof line, "   /N 4\n   /First %zu\n", strlen (numbers));
  put (file, "%PDF-1.7\n");
  put_packed (file, "20 0 obj\n<< /Type /ObjStm\n", stream ? stream : line, text);
  size_t table = file->length;
  put_packed (file, "21 0 obj\n", "<< /Type /XRef\n   /Size 22\n   /W [1 2 2]\n   /Root 12 0 R\n   /Info 11 0 R\n", "places");
  snprintf (line, sizeof line, "startxref\n%zu\n%%%%EOF\n", table);
  put (file, line);
}

static void
check_place (const unsigned char *entry, size_t offset)
{
  const unsigned char expected[] = { 1, (unsigned char) (offset >> 24), (unsigned char) (offset >> 16), (unsigned char) (offset >> 8),
                                     (unsigned char) offset, 0 };
  assert_memory_equal (entry, expected, sizeof expected);
}

static void
test_packed (void **state)
{
  (void) state;
  br__bytes file = { NULL, 0, 0, 0 };
  put_modern (&file, NULL);
  size_t length = file.length, last = strtoul (file.bytes + length - 10, NULL, 10);
  assert_int_equal (br__pdf_update (&file, "en", descriptions, 2), 1);
  size_t own = place (&file, length, "22 0 obj"), stream = place (&file, own, "\nstream\n") + 8;
  char head[300];
  snprintf (head, sizeof head,
            "22 0 obj\n<< /Size 23\n   /Root 12 0 R\n   /Info 11 0 R\n   /Prev %zu\n   /Type /XRef\n   /W [1 4 1]\n"
            "   /Index [4 1 12 1 16 1 22 1]\n   /Length 24\n>>\nstream\n", last);
  assert_int_equal (stream - own, strlen (head));
  assert_memory_equal (file.bytes + own, head, strlen (head));
  const unsigned char *entries = (const unsigned char *) file.bytes + stream;
  check_place (entries, place (&file, length, "4 0 obj\n" "<< /Type /StructElem\n   /S /Figure\n   /Alt <FEFF0061"));
  check_place (entries + 6, place (&file, length, "12 0 obj\n<< /Type /Catalog\n   /Pages 1 0 R\n   /Lang (en)\n"));
  check_place (entries + 12, place (&file, length, "16 0 obj\n<< /Type /StructElem\n   /S /Figure\n   /K 18\n   /Alt <FEFFD83D"));
  check_place (entries + 18, own);
  ENDS_WITH (&file, stream + 24, "\nendstream\nendobj\nstartxref\n%zu\n%%%%EOF\n", own);
  free (file.bytes);
}

/* Figures beyond the descriptions stay without one.  */
static void
test_fewer_descriptions (void **state)
{
  (void) state;
  br__bytes file = { NULL, 0, 0, 0 };
  put_plain (&file);
  size_t length = file.length;
  assert_int_equal (br__pdf_update (&file, "en", descriptions, 1), 1);
  assert_null (strstr (file.bytes + length, "16 0 obj"));
  file.length = 0;
  put_plain (&file);
  assert_int_equal (br__pdf_update (&file, "en", NULL, 0), 1);
  assert_null (strstr (file.bytes + length, "/Alt"));
  assert_non_null (strstr (file.bytes + length, "/Lang (en)"));
  free (file.bytes);
}

/* What is no such file stays as it is.  */
static void
test_left_alone (void **state)
{
  (void) state;
  static const char *const texts[] = { "%PDF-1.5\nstartxref\n0\n%%EOF\n", "%PDF-1.5\nstartxref\n999\n%%EOF\n", "words",
                                       "%PDF-1.5\n4 0 obj\n<< /S /P\n>>\nendobj\nxref\nstartxref\n38\n%%EOF\n", "%PDF-1.5\n4 0 obj\nstartxref\n9\n%%EOF\n" };
  static const char *const streams[] = { "   /N 4\n   /First 0\n", "   /N 4\n   /First 9999\n", "   /N 4\n   /First 9\n" };
  br__bytes file = { NULL, 0, 0, 0 };
  for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
    {
      file.length = 0;
      put (&file, texts[i]);
      assert_int_equal (br__pdf_update (&file, "en", descriptions, 2), 1);
      assert_string_equal (file.bytes, texts[i]);
    }
  for (size_t i = 0; i < sizeof streams / sizeof streams[0] + 1; i++)
    {
      file.length = 0;
      put_modern (&file, streams[i % 3]);
      if (i == 3)
        file.bytes[place (&file, 0, "stream\n") + 7] ^= 0x7f;
      size_t length = file.length;
      assert_int_equal (br__pdf_update (&file, "en", descriptions, 2), 1);
      if (i != 2)
        assert_int_equal (file.length, length);
    }
  free (file.bytes);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_plain), cmocka_unit_test (test_packed), cmocka_unit_test (test_fewer_descriptions),
    cmocka_unit_test (test_left_alone)
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
