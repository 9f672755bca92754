//! Small symmetric positive matrices: Cholesky, at most a dozen rows, every sum in index order.

/// Lower factor of a symmetric positive definite matrix; none where it is not.
pub(super) fn cholesky(a: &[Vec<f64>]) -> Option<Vec<Vec<f64>>> {
    let n = a.len();
    let mut l = vec![vec![0.0; n]; n];
    for i in 0..n {
        for j in 0..=i {
            let mut sum = a[i][j];
            for (p, q) in l[i].iter().zip(&l[j]).take(j) {
                sum -= p * q;
            }
            if i == j {
                if !(sum > 0.0 && sum.is_finite()) {
                    return None;
                }
                l[i][i] = sum.sqrt();
            } else {
                l[i][j] = sum / l[j][j];
            }
        }
    }
    Some(l)
}

/// x of L L' x = b.
pub(super) fn solve(l: &[Vec<f64>], b: &[f64]) -> Vec<f64> {
    let n = l.len();
    let mut x = b.to_vec();
    for i in 0..n {
        for k in 0..i {
            x[i] -= l[i][k] * x[k];
        }
        x[i] /= l[i][i];
    }
    for i in (0..n).rev() {
        for k in i + 1..n {
            x[i] -= l[k][i] * x[k];
        }
        x[i] /= l[i][i];
    }
    x
}

/// Inverse of L L'.
pub(super) fn inverse(l: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let n = l.len();
    (0..n)
        .map(|i| {
            let mut unit = vec![0.0; n];
            unit[i] = 1.0;
            solve(l, &unit)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_matrix_times_its_inverse_is_one() {
        let a: Vec<Vec<f64>> = (0..6)
            .map(|i| (0..6).map(|j| 1.0 / (1.0 + f64::from(i + j)) + f64::from(u8::from(i == j))).collect())
            .collect();
        let inverse = inverse(&cholesky(&a).unwrap());
        for (i, row) in a.iter().enumerate() {
            for j in 0..6 {
                let product: f64 = row.iter().zip(&inverse).map(|(x, other)| x * other[j]).sum();
                assert!((product - f64::from(u8::from(i == j))).abs() < 1e-12);
            }
        }
        assert_eq!(cholesky(&[vec![1.0, 2.0], vec![2.0, 1.0]]), None);
    }
}
