# SPDX-License-Identifier: LGPL-3.0-or-later
