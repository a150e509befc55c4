/* SPDX-License-Identifier: GPL-3.0-or-later
   cuts_peer.c - a cutting plan as the manual of GLPK would have it: the linear program over patterns, new patterns by the
   knapsack problem at its prices (Gilmore and Gomory, A linear programming approach to the cutting-stock problem,
   Operations Research 9, 1961), and at the end the integer program over the patterns found.  In doubles, as GLPK is.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <glpk.h>

#include "cuts_peer.h"
#include "clock.h"

#define MOST_SIZES 512

/* How often each size comes, as a new column of MASTER.  */
static void
add_pattern (glp_prob *master, const double *counts, int sizes)
{
  int rows[MOST_SIZES + 1], used = 0, column = glp_add_cols (master, 1);
  double values[MOST_SIZES + 1];
  for (int i = 1; i <= sizes; i++)
    if (counts[i] > 0)
      {
        rows[++used] = i;
        values[used] = counts[i];
      }
  glp_set_mat_col (master, column, used, rows, values);
  glp_set_col_bnds (master, column, GLP_LO, 0, 0);
  glp_set_obj_coef (master, column, 1);
}

static glp_prob *
begin_master (int64_t room, const int64_t *size, const int64_t *demand, int sizes)
{
  glp_prob *master = glp_create_prob ();
  glp_add_rows (master, sizes);
  for (int i = 1; i <= sizes; i++)
    glp_set_row_bnds (master, i, GLP_LO, (double) demand[i - 1], 0);
  for (int i = 1; i <= sizes; i++)
    {
      double counts[MOST_SIZES + 1] = { 0 };
      int64_t fit = room / size[i - 1];
      counts[i] = (double) (fit < demand[i - 1] ? fit : demand[i - 1]);
      add_pattern (master, counts, sizes);
    }
  return master;
}

/* A knapsack whose prices are set by each round.  */
static glp_prob *
begin_knapsack (int64_t room, const int64_t *size, const int64_t *demand, int sizes)
{
  glp_prob *knapsack = glp_create_prob ();
  int columns[MOST_SIZES + 1];
  double weights[MOST_SIZES + 1];
  glp_set_obj_dir (knapsack, GLP_MAX);
  glp_add_rows (knapsack, 1);
  glp_set_row_bnds (knapsack, 1, GLP_UP, 0, (double) room);
  glp_add_cols (knapsack, sizes);
  for (int i = 1; i <= sizes; i++)
    {
      glp_set_col_kind (knapsack, i, GLP_IV);
      glp_set_col_bnds (knapsack, i, GLP_DB, 0, (double) demand[i - 1]);
      columns[i] = i;
      weights[i] = (double) size[i - 1];
    }
  glp_set_mat_row (knapsack, 1, sizes, columns, weights);
  return knapsack;
}

static int
solve_whole (glp_prob *problem, double until)
{
  glp_iocp options;
  double left = (until - bench_now ()) / 1e6;
  glp_init_iocp (&options);
  options.msg_lev = GLP_MSG_OFF;
  options.presolve = GLP_ON;
  options.tm_lim = left < 1 ? 1 : (int) left;
  glp_intopt (problem, &options);
  int status = glp_mip_status (problem);
  return status == GLP_OPT || status == GLP_FEAS;
}

/* 1 where the knapsack at the prices of MASTER is a new pattern.  */
static int
another_pattern (glp_prob *master, glp_prob *knapsack, int sizes, double until)
{
  double counts[MOST_SIZES + 1] = { 0 };
  for (int i = 1; i <= sizes; i++)
    glp_set_obj_coef (knapsack, i, glp_get_row_dual (master, i));
  if (!solve_whole (knapsack, until) || glp_mip_obj_val (knapsack) < 1 + 1e-7)
    return 0;
  for (int i = 1; i <= sizes; i++)
    counts[i] = glp_mip_col_val (knapsack, i);
  add_pattern (master, counts, sizes);
  return 1;
}

int64_t
glpk_cuts (int64_t room, const int64_t *size, const int64_t *demand, size_t count, int milliseconds)
{
  double until = bench_now () + milliseconds * 1e6;
  int sizes = (int) count;
  glp_smcp options;
  glp_prob *master = begin_master (room, size, demand, sizes), *knapsack = begin_knapsack (room, size, demand, sizes);
  glp_init_smcp (&options);
  options.msg_lev = GLP_MSG_OFF;
  do
    glp_simplex (master, &options);
  while (bench_now () < until && another_pattern (master, knapsack, sizes, until));
  for (int i = 1; i <= glp_get_num_cols (master); i++)
    glp_set_col_kind (master, i, GLP_IV);
  int64_t sticks = solve_whole (master, until) ? (int64_t) (glp_mip_obj_val (master) + 0.5) : 0;
  glp_delete_prob (knapsack);
  glp_delete_prob (master);
  return sticks;
}
