/* SPDX-License-Identifier: LGPL-3.0-or-later
   bytes.h - eight bytes of a text at once, in a word: the first of them is the low byte on every machine.  */
#ifndef BR_EXACT_BYTES_H
#define BR_EXACT_BYTES_H

#include <stdint.h>
#include <string.h>

#define BR__EVERY(byte) (UINT64_C (0x0101010101010101) * (byte))

static inline uint64_t
br__load_eight (const char *at)
{
  uint64_t word;
  memcpy (&word, at, 8);
#if __BYTE_ORDER__ == __ORDER_BIG_ENDIAN__
  word = __builtin_bswap64 (word);
#endif
  return word;
}

static inline uint64_t
br__load_four (const char *at)
{
  uint32_t word;
  memcpy (&word, at, 4);
#if __BYTE_ORDER__ == __ORDER_BIG_ENDIAN__
  word = __builtin_bswap32 (word);
#endif
  return word;
}

/* LENGTH bytes at AT, fewer than eight, and zeros behind them.  Nothing behind them is read.  */
static inline uint64_t
br__load_few (const char *at, size_t length)
{
  uint64_t word = 0;
  if (length >= 4)
    return br__load_four (at) | br__load_four (at + length - 4) << 8 * (length - 4);
  for (size_t i = 0; i < length; i++)
    word |= (uint64_t) (unsigned char) at[i] << 8 * i;
  return word;
}

/* The uppermost bit of each byte of WORD that is over MOST, which is below 0x80; no byte touches its neighbour.  */
static inline uint64_t
br__bytes_over (uint64_t word, unsigned most)
{
  return (((word & BR__EVERY (0x7f)) + BR__EVERY (0x7f - most)) | word) & BR__EVERY (0x80);
}

/* The same of each byte that is not BYTE.  */
static inline uint64_t
br__bytes_not (uint64_t word, unsigned char byte)
{
  return br__bytes_over (word ^ BR__EVERY (byte), 0);
}

/* How many bytes stand before the first that BITS marks; BITS is not 0.  */
static inline unsigned
br__bytes_before (uint64_t bits)
{
  return (unsigned) __builtin_ctzll (bits) / 8;
}

/* How many digits WORD begins with.  */
static inline unsigned
br__digits_ahead (uint64_t word)
{
  uint64_t others = br__bytes_over (word ^ BR__EVERY ('0'), 9);
  return others ? br__bytes_before (others) : 8;
}

/* The value of the first COUNT bytes of WORD, one to eight digits: pairs of digits become numbers below 100, pairs
   of these below 10^4, and these one number.  */
static inline uint32_t
br__digits_value (uint64_t word, unsigned count)
{
  const uint64_t pairs = UINT64_C (0x000000ff000000ff);
  word = (word & BR__EVERY (0x0f)) << 8 * (8 - count);
  word = word * 10 + (word >> 8);
  return (uint32_t) (((word & pairs) * (100 + (UINT64_C (1000000) << 32))
                      + (word >> 16 & pairs) * (1 + (UINT64_C (10000) << 32))) >> 32);
}

#endif
